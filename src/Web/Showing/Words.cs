using System.Text.Encodings.Web;
using System.Text.Unicode;
using KittingBee.Planning;
using Microsoft.AspNetCore.Html;

namespace KittingBee.Web.Showing;

/// <summary>
/// Says the program's texts in the reader's language. The English text stays readable where it is used and is the key of the
/// others: <c>Say("Save")</c>, <c>Say($"{count} kits are short")</c>.
/// </summary>
public static class Words
{
    private static readonly HtmlEncoder Html = HtmlEncoder.Create(UnicodeRanges.All);

    /// <summary>A plain text; numbers in it are written as the reader's language writes them.</summary>
    public static string Say(Sentence sentence)
    {
        ArgumentNullException.ThrowIfNull(sentence);
        var language = Language.Current;
        return sentence.Say(language.Culture, language.Text);
    }

    /// <summary>Several texts in one line, such as what a piece is for.</summary>
    public static string Listed(IEnumerable<Sentence> sentences) => string.Join("; ", sentences.Select(Say));

    /// <summary>A text for a page with <see cref="Bold"/> or <see cref="Link"/> among its values; all else is encoded.</summary>
    public static IHtmlContent Rich(Sentence sentence)
    {
        ArgumentNullException.ThrowIfNull(sentence);
        var language = Language.Current;
        return new HtmlContentBuilder().AppendFormat(language.Culture, Html.Encode(language.Text(sentence.Format)), [.. sentence.Values.Select(value => value is Sentence part ? Say(part) : value)]);
    }

    /// <summary>
    /// A count of things, such as <c>1 kit</c> or <c>1,200 kits</c>. The language files have both forms: <c>{0} kit</c> and
    /// <c>{0} kits</c>.
    /// </summary>
    public static string Many(int count, string thing)
    {
        var language = Language.Current;
        return string.Format(language.Culture, language.Text(count == 1 ? $"{{0}} {thing}" : $"{{0}} {thing}s"), count.ToString("#,##0", language.Culture));
    }

    /// <summary>A value of <see cref="Rich"/> that stands out.</summary>
    public static IHtmlContent Bold(string text) => new HtmlString($"<b>{Html.Encode(text)}</b>");

    /// <summary>A key to press: a value of <see cref="Rich"/>, or on its own.</summary>
    public static IHtmlContent Key(string name) => new HtmlString($"<kbd>{Html.Encode(name)}</kbd>");

    /// <summary>A value of <see cref="Rich"/> that leads elsewhere.</summary>
    public static IHtmlContent Link(string address, string text) => new HtmlString($"<a href=\"{Html.Encode(address)}\">{Html.Encode(text)}</a>");

    /// <summary>A value of <see cref="Rich"/> that gives a file.</summary>
    public static IHtmlContent Download(string address, string text) => new HtmlString($"<a href=\"{Html.Encode(address)}\" download>{Html.Encode(text)}</a>");
}
