namespace KittingBee.Web.Glossary;

/// <summary>A word of the trade or of ours.</summary>
/// <param name="Key">Its place on the page: <c>half-square-triangle</c>.</param>
/// <param name="Word">As the pages use it.</param>
/// <param name="Meaning">One or two sentences.</param>
/// <param name="Drawing">An SVG that shows it, or null where there is nothing to see.</param>
public sealed record Term(string Key, string Word, string Meaning, string? Drawing = null);
