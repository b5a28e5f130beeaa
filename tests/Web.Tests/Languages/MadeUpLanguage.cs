using System.Globalization;
using System.Net;
using System.Text.RegularExpressions;
using KittingBee.Web.Showing;

namespace KittingBee.Web.Tests.Languages;

/// <summary>
/// A language that puts every text that is said into brackets, and leaves the values outside of them: what stands on a page without
/// brackets was not said, or is the guild's own.
/// </summary>
internal static partial class MadeUpLanguage
{
    /// <summary>With the dates and numbers of a language that is not the sources' own, so that theirs are noticed.</summary>
    public static string Tag { get; } = Learned("de-LI");

    // What is the same in every language: units, kinds of files, the program's name, codes of currencies, what languages call themselves, and the culture's own names of days and months.
    private static readonly HashSet<string> Free = new(
    [
        "in", "cm", "mm", "yd", "m", "px", "kB", "MB", "Kitting", "Bee", "Letter", "USD", "UTC", "JSON", "SVG", "CSV", "QR", "xlsx", "csv", "json", "iCalendar", "HTTPS", "http", "Ctrl",
        .. Language.Offered.SelectMany(language => Letters().Matches(language.OwnName).Select(word => word.Value)),
        .. CultureInfo.GetCultureInfo(Tag).DateTimeFormat is var dates ? dates.DayNames.Concat(dates.MonthNames).Concat(dates.AbbreviatedMonthNames).Concat(dates.AbbreviatedDayNames).Select(name => name.TrimEnd('.')) : [],
    ], StringComparer.Ordinal);

    /// <summary>The texts of a page that people see or hear and that were not said.</summary>
    /// <param name="html">The page as the program sends it.</param>
    /// <param name="own">The guild's own names and notes, which stand on pages as they are.</param>
    public static IEnumerable<string> Unsaid(string html, IReadOnlyList<string> own)
    {
        var page = Silent().Replace(html, "");
        var heard = Heard().Matches(page).Select(match => match.Groups[1].Value).Concat(ButtonValue().Matches(page).Select(match => match.Groups[1].Value));
        return Tag_().Split(page).Concat(heard).Select(text => Spaces().Replace(WebUtility.HtmlDecode(text), " ").Trim()).Where(text => IsUnsaid(text, own)).Distinct();
    }

    private static bool IsUnsaid(string text, IReadOnlyList<string> own)
    {
        var left = Said().Replace(text, " ");
        if (!Letters().IsMatch(left))
        {
            return false;
        }

        foreach (var words in own)
        {
            left = left.Replace(words, " ", StringComparison.OrdinalIgnoreCase);
        }

        return Letters().Matches(left).Any(word => !Free.Contains(word.Value));
    }

    private static string Learned(string tag)
    {
        Language.Learn(tag, SaidTexts.All.Texts.ToDictionary(text => text, Bracketed, StringComparer.Ordinal));
        return tag;
    }

    private static string Bracketed(string text) => Value().Replace(text, match => match.Groups["words"] is { Success: true, Value: var words } && words.Any(char.IsLetter) ? $"⟦{words}⟧" : match.Value);

    [GeneratedRegex(@"\{[0-9]+[^}]*\}|(?<words>(?:\{\{|\}\}|[^{}])+)")]
    private static partial Regex Value();

    // Brackets with anything but brackets in them; a label's words may be on lines of their own. And addresses and folders.
    [GeneratedRegex("⟦[^⟦⟧]*⟧|⟦[^⟦⟧]*(?:$|…)|^[^⟦⟧]*⟧|(?<= |^)(?:/[A-Za-z0-9_.-]+)+")]
    private static partial Regex Said();

    // A letter alone is a fabric's.
    [GeneratedRegex(@"\p{L}{2,}")]
    private static partial Regex Letters();

    [GeneratedRegex("<(script|style)[ >].*?</\\1>|<(\\w+)(?: [^>]*)? translate=\"no\"[^>]*>.*?</\\2>|<!--.*?-->|<!doctype[^>]*>", RegexOptions.Singleline | RegexOptions.IgnoreCase)]
    private static partial Regex Silent();

    [GeneratedRegex("<(?:\"[^\"]*\"|[^\">])*>")]
    private static partial Regex Tag_();

    [GeneratedRegex(" (?:aria-label|aria-description|aria-valuetext|title|alt|placeholder|label|data-label|data-page)=\"([^\"]*)\"")]
    private static partial Regex Heard();

    [GeneratedRegex("<input[^>]*type=\"(?:submit|button)\"[^>]*value=\"([^\"]*)\"")]
    private static partial Regex ButtonValue();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();
}
