using System.Globalization;

namespace KittingBee.Web.Finding;

/// <summary>Finds what has every word that was typed: in any order, in any script, whether or not accents and capitals were typed.</summary>
public static class Finder
{
    private const CompareOptions Loosely = CompareOptions.IgnoreCase | CompareOptions.IgnoreNonSpace | CompareOptions.IgnoreWidth | CompareOptions.IgnoreKanaType;

    /// <summary>What matches, in the order in which it came.</summary>
    public static Findable Find(Findable all, string typed)
    {
        string[] words = [.. Plain(typed).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)];
        return new Findable(
            [.. all.Classes.Where(item => Has(words, item.Title, item.Place, item.BlockName))],
            [.. all.Blocks.Where(item => Has(words, item.Name))],
            [.. all.Fabrics.Where(item => Has(words, item.Name, item.SupplierNote))],
            [.. all.People.Where(item => Has(words, item.Name, item.Contact, item.Note))]);
    }

    private static bool Has(string[] words, params string[] texts)
    {
        // A line between them, so that no word is found across two.
        var whole = Plain(string.Join('\n', texts));
        return words.All(word => CultureInfo.InvariantCulture.CompareInfo.IndexOf(whole, word, Loosely) >= 0);
    }

    // What a keyboard has in place of what a printer sets.
    private static string Plain(string text) => text.Replace('’', '\'').Replace('“', '"').Replace('”', '"');
}
