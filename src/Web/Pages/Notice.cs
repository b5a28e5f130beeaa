using KittingBee.Planning;
using KittingBee.Web.Showing;
using Microsoft.AspNetCore.Mvc.ViewFeatures;

namespace KittingBee.Web.Pages;

/// <summary>Says on the next page what was done, and offers to take it back.</summary>
public static class Notice
{
    public const string TextKey = "notice";

    public const string UndoKey = "notice-undo";

    /// <summary>Shows a sentence once. <paramref name="undo"/> is the address that a form posts to in order to take it back.</summary>
    public static void Say(ITempDataDictionary tempData, Sentence text, string? undo = null) => Show(tempData, Words.Say(text), undo);

    /// <summary>Shows once what is said in the reader's language already.</summary>
    public static void Show(ITempDataDictionary tempData, string text, string? undo = null)
    {
        tempData[TextKey] = text;
        if (undo is not null)
        {
            tempData[UndoKey] = undo;
        }
    }
}
