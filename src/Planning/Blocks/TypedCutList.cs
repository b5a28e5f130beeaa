using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>How one typed line was understood.</summary>
/// <param name="Index">Its place in the text, from 0.</param>
/// <param name="Text">As typed.</param>
/// <param name="Understood">In full words, to be checked by the teacher; empty for a blank line.</param>
/// <param name="Error">A full sentence with the remedy, or null.</param>
public sealed record TypedLine(int Index, string Text, Sentence Understood, Sentence? Error);

/// <summary>A typed cut list as it was read.</summary>
/// <param name="Lines">Every line of the text in order.</param>
/// <param name="CutList">The cut list of one kit, without drawing and steps; null when any line was not understood.</param>
/// <param name="Problems">One for each line that was not understood, by field <c>lines[index]</c>.</param>
public sealed record TypedCutListReading(IReadOnlyList<TypedLine> Lines, CutList? CutList, IReadOnlyList<Problem> Problems);

/// <summary>
/// Reads cut lists as people type them from a printed pattern: <c>A 4 squares 4 1/2</c>, <c>B: 2 @ 2 x 14½</c>,
/// <c>8 - 4" sq white</c>. A line without a number names the fabric of the lines below it. Sizes are cut sizes.
/// </summary>
public static class TypedCutList
{
    /// <summary>Most lines.</summary>
    public const int MostLines = 500;

    /// <summary>Longest line, in characters.</summary>
    public const int LongestLine = 300;

    /// <summary>Reads the text; never throws on bad text. A number without a unit is in <paramref name="unit"/>.</summary>
    public static TypedCutListReading Read(string? text, CuttingRules rules, LengthUnit unit = LengthUnit.Inch)
    {
        var lines = (text ?? "").ReplaceLineEndings("\n").Split('\n');
        if (lines.Length > MostLines)
        {
            return new([], null, [new("lines", $"The list has {lines.Length} lines; the most is {MostLines}.")]);
        }

        var fabrics = new TypedFabrics();
        var reader = new TypedLineReader(fabrics, rules, unit);
        var read = new List<TypedLine>();
        var pieces = new List<MadePiece>();
        foreach (var (index, line) in lines.Index())
        {
            var result = line.Length > LongestLine
                ? new TypedPiece(null, null, $"Line {index + 1} has {line.Length} characters; the most is {LongestLine}. Split it.")
                : reader.Read(line);
            read.Add(new(index, line, result.Understood ?? Sentence.Empty, result.Error));
            if (result.Piece is { } piece)
            {
                pieces.Add(piece);
            }
        }

        List<Problem> problems = [.. read.Where(line => line.Error is not null).Select(line => new Problem($"lines[{line.Index}]", line.Error!))];
        if (problems.Count == 0 && pieces.Count == 0)
        {
            problems.Add(new("lines", "The list has no pieces. Type a line such as \"A 4 squares 4 1/2\"."));
        }

        return new(
            read,
            problems.Count > 0 ? null : new(Length.Zero, Length.Zero, KitPieces.Of(fabrics.All, Times(pieces, rules.BlocksPerKit)), [], []),
            problems);
    }

    private static IEnumerable<MadePiece> Times(IEnumerable<MadePiece> pieces, int times) =>
        pieces.Select(piece => piece with { Count = piece.Count * times });
}
