using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Blocks;

/// <summary>Short ways to write a block, its rules and its pieces in a test.</summary>
internal static class Sketch
{
    public static Length In(string text)
    {
        var reading = LengthText.Read(text);
        return reading.IsLength ? reading.Value : throw new ArgumentException(reading.Error, nameof(text));
    }

    public static IReadOnlyList<Length> Sides(params string[] sides) => [.. sides.Select(In)];

    public static IReadOnlyList<Length> Equal(string side, int count) => [.. Enumerable.Repeat(In(side), count)];

    public static Block Of(string name, IReadOnlyList<Length> columns, IReadOnlyList<Length> rows, string letters, params Unit[] units) =>
        new(name, columns, rows, [.. letters.Select(letter => new BlockFabric(letter.ToString(), "fabric " + letter))], units);

    public static Unit Plain(int row, int column, string letter, int rowSpan = 1, int columnSpan = 1) =>
        Made(row, column, UnitKind.Plain, 0, letter) with { RowSpan = rowSpan, ColumnSpan = columnSpan };

    public static Unit Half(int row, int column, string letters, int turn = 0) => Made(row, column, UnitKind.HalfSquareTriangle, turn, letters);

    public static Unit Quarter(int row, int column, string letters, int turn = 0) => Made(row, column, UnitKind.QuarterSquareTriangle, turn, letters);

    /// <summary>One letter a fabric; a dot is a corner left alone.</summary>
    public static Unit Made(int row, int column, UnitKind kind, int turn, string letters) => new()
    {
        Row = row,
        Column = column,
        Kind = kind,
        Turn = turn,
        Fabrics = [.. letters.Select(letter => letter == '.' ? null : letter.ToString())],
    };

    public static CutList CutList(Block block, CuttingRules? rules = null)
    {
        var result = CutLists.For(block, rules ?? new CuttingRules());
        Assert.Empty(result.Problems.Select(problem => problem.Message));
        return result.CutList!;
    }

    public static CuttingRules Exact { get; } = new() { Methods = new() { Trim = TrimMethod.Exact } };

    public static CuttingRules CutTriangles { get; } = new()
    {
        Methods = new()
        {
            HalfSquareTriangle = HalfSquareMethod.CutTriangles,
            QuarterSquareTriangle = QuarterSquareMethod.CutTriangles,
            SquareInASquare = SquareInASquareMethod.CutTriangles,
            Trim = TrimMethod.Exact,
        },
    };

    /// <summary>"A: 2 @ 2 7/8 x 2 7/8, 4 @ 2 1/2 x 1 1/2; B: …", largest pieces first.</summary>
    public static string InShort(CutList list) => string.Join("; ", list.Fabrics.Select(fabric =>
        $"{fabric.Letter}: {string.Join(", ", fabric.Pieces.Select(piece => $"{piece.Count} @ {Plainly(piece.Width)} x {Plainly(piece.Height)}"))}"));

    private static string Plainly(Length length)
    {
        var eighths = length.Ticks * 8 / Length.TicksPerInch;
        Assert.Equal(Length.FromInches(0, eighths, 8), length);
        var (whole, part) = Math.DivRem(eighths, 8);
        var fraction = part switch { 0 => "", 2 => "1/4", 4 => "1/2", 6 => "3/4", _ => $"{part}/8" };
        return fraction.Length == 0 ? $"{whole}" : $"{whole} {fraction}";
    }
}
