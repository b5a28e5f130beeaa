namespace KittingBee.Web.Documents.Workbook;

/// <summary>Names that a spreadsheet program takes: at most 31 characters, none of []:*?/\, no quote at an end, each once.</summary>
internal sealed class SheetNames
{
    private const int Longest = 31;
    private readonly HashSet<string> taken = new(StringComparer.OrdinalIgnoreCase);

    /// <summary>A free name as close to the wish as can be.</summary>
    public string Take(string wish)
    {
        var clean = string.Concat(wish.Select(letter => "[]:*?/\\".Contains(letter, StringComparison.Ordinal) || char.IsControl(letter) ? '-' : letter)).Trim(' ', '\'');
        clean = clean.Length == 0 ? "Sheet" : clean;
        for (var attempt = 1; ; attempt++)
        {
            var ending = attempt == 1 ? "" : $" ({attempt})";
            var name = Cut(clean, Longest - ending.Length).TrimEnd(' ', '\'') + ending;
            if (taken.Add(name))
            {
                return name;
            }
        }
    }

    // Never through the middle of a character that takes two places.
    private static string Cut(string text, int length) =>
        text.Length <= length ? text : text[..(char.IsHighSurrogate(text[length - 1]) ? length - 1 : length)];
}
