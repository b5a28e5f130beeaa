using KittingBee.Web.Showing;

namespace KittingBee.Web.Documents.Workbook;

/// <summary>
/// A word of the workbook that the program looks for when the workbook comes back filled in. It is written in the guild's
/// language and found in any that the program speaks, so that a workbook outlives a change of language.
/// </summary>
internal sealed class SheetWord(Func<string> said, string key, params string[] shorter)
{
    // All languages at once: a workbook may come back after the guild has changed its own.
    private readonly Lazy<IReadOnlyList<string>> forms = new(() =>
        [.. Language.Offered.Select(language => language.Text(key)).Append(key).Concat(shorter).Distinct(StringComparer.Ordinal).OrderByDescending(form => form.Length)]);

    /// <summary>The word in the reader's language.</summary>
    public string Said => said();

    /// <summary>The same with its unit or currency, as a heading.</summary>
    public string In(string unit) => $"{Said} ({unit})";

    /// <summary>True where a cell says just this, in whatever language.</summary>
    public bool Is(string cell) => forms.Value.Contains(cell, StringComparer.Ordinal);

    /// <summary>True where a heading begins with it.</summary>
    public bool Begins(string heading) => LengthIn(heading) > 0;

    /// <summary>How many letters of the text are this word, which begins it; 0 where it does not.</summary>
    public int LengthIn(string text) =>
        forms.Value.FirstOrDefault(form => text.StartsWith(form, StringComparison.OrdinalIgnoreCase))?.Length ?? 0;
}

/// <summary>The headings and marks by which the Settle and Kits sheets are read.</summary>
internal static class SheetWords
{
    public static SheetWord Fabric { get; } = new(() => Say("Fabric"), "Fabric");

    public static SheetWord Bought { get; } = new(() => Say("Bought"), "Bought");

    public static SheetWord Paid { get; } = new(() => Say("Paid"), "Paid");

    public static SheetWord Spoiled { get; } = new(() => Say("Spoiled"), "Spoiled");

    public static SheetWord Left { get; } = new(() => Say("Left"), "Left");

    public static SheetWord Remnants { get; } = new(() => Say("Remnants, as measured"), "Remnants, as measured", "Remnants");

    public static SheetWord Kit { get; } = new(() => Say("Kit"), "Kit");

    public static SheetWord Letter { get; } = new(() => Say("Letter"), "Letter");

    public static SheetWord Width { get; } = new(() => Say("Width"), "Width");

    public static SheetWord Height { get; } = new(() => Say("Height"), "Height");

    public static SheetWord InTheBag { get; } = new(() => Say("In the bag"), "In the bag");

    public static SheetWord Short { get; } = new(() => Say("short"), "short");
}
