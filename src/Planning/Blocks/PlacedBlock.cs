using System.Globalization;
using System.Numerics;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>A unit in its cells, in real size.</summary>
/// <param name="Number">Counted from 1 in the order of the block's units.</param>
/// <param name="Form">How it looks there.</param>
internal sealed record PlacedUnit(int Number, UnitForm Form, int Column, int Row, int ColumnSpan, int RowSpan);

/// <summary>
/// A checked block with every turn and scale worked in. Sizes of nested blocks are exact where they are whole ticks, and
/// otherwise rounded up to the tick, so that equal units stay equal and nothing is cut too small.
/// </summary>
/// <param name="ColumnEdges">Finished distance of each grid line from the left edge, the first 0.</param>
/// <param name="RowEdges">Finished distance of each grid line from the top edge, the first 0.</param>
internal sealed record PlacedBlock(
    IReadOnlyList<Length> ColumnEdges,
    IReadOnlyList<Length> RowEdges,
    IReadOnlyList<PlacedUnit> Units)
{
    public Length Width => ColumnEdges[^1];

    public Length Height => RowEdges[^1];

    public int Columns => ColumnEdges.Count - 1;

    public int Rows => RowEdges.Count - 1;

    /// <summary>Equal for blocks that look alike.</summary>
    public string Key => "(" + string.Join(';', Units.OrderBy(unit => unit.Row).ThenBy(unit => unit.Column).Select(unit => string.Create(
        CultureInfo.InvariantCulture,
        $"{ColumnEdges[unit.Column].Ticks},{RowEdges[unit.Row].Ticks}:{unit.Form.Key}"))) + ")";

    /// <summary>Equal for blocks that look alike when turned.</summary>
    public string KeyOfAllTurns()
    {
        var best = Key;
        var next = this;
        for (var quarter = 1; quarter < 4; quarter++)
        {
            next = next.Turned();
            best = string.CompareOrdinal(next.Key, best) < 0 ? next.Key : best;
        }

        return best;
    }

    /// <summary>The units on a rectangle of cells, as a block of its own. No unit may cross its edge.</summary>
    public PlacedBlock Part(int column, int row, int columnSpan, int rowSpan) => new(
        [.. Enumerable.Range(column, columnSpan + 1).Select(line => ColumnEdges[line] - ColumnEdges[column])],
        [.. Enumerable.Range(row, rowSpan + 1).Select(line => RowEdges[line] - RowEdges[row])],
        [.. Units
            .Where(unit => unit.Column >= column && unit.Column < column + columnSpan && unit.Row >= row && unit.Row < row + rowSpan)
            .Select(unit => unit with { Column = unit.Column - column, Row = unit.Row - row })]);

    /// <summary>Every unit that is sewn or cut as itself: nested blocks opened up.</summary>
    public IEnumerable<UnitForm> Leaves() =>
        Units.SelectMany(unit => unit.Form.Leaves());

    /// <summary>The block turned by a quarter clockwise.</summary>
    public PlacedBlock Turned() => new(
        [.. RowEdges.Reverse().Select(edge => Height - edge)],
        ColumnEdges,
        [.. Units.Select(unit => new PlacedUnit(
            unit.Number, unit.Form.Turned(), Rows - unit.Row - unit.RowSpan, unit.Column, unit.RowSpan, unit.ColumnSpan))]);

    /// <summary>Places a block that <see cref="BlockChecks"/> has found good.</summary>
    public static PlacedBlock Of(Block block) => Of(block, Scale.One, _ => true);

    /// <summary>Places the units that are chosen by their index, which must be good.</summary>
    public static PlacedBlock Of(Block block, Func<int, bool> chosen) => Of(block, Scale.One, chosen);

    private static PlacedBlock Of(Block block, Scale scale, Func<int, bool> chosen)
    {
        var columns = Edges(block.Columns);
        var rows = Edges(block.Rows);
        var units = block.Units.Index().Where(item => chosen(item.Index)).Select(item =>
        {
            var (index, unit) = item;

            // The span is scaled as a whole: adding up rounded columns would make equal units unequal.
            var width = columns[unit.Column + unit.ColumnSpan] - columns[unit.Column];
            var height = rows[unit.Row + unit.RowSpan] - rows[unit.Row];
            return new PlacedUnit(index + 1, Form(unit, width, height, scale), unit.Column, unit.Row, unit.ColumnSpan, unit.RowSpan);
        });
        return new([.. columns.Select(scale.Of)], [.. rows.Select(scale.Of)], [.. units]);
    }

    private static UnitForm Form(Unit unit, Length width, Length height, Scale scale)
    {
        var upright = unit.Turn % 180 == 0;
        var (across, down) = upright ? (width, height) : (height, width);
        var form = new UnitForm
        {
            Kind = unit.Kind,
            Width = scale.Of(across),
            Height = scale.Of(down),
            Letters = Letters(unit),
            Widths = unit.Kind != UnitKind.Rails ? []
                : unit.Widths is { } given ? [.. given.Select(scale.Of)]
                : [.. Enumerable.Repeat(scale.PartOf(down, unit.Fabrics.Count), unit.Fabrics.Count)],
            PatchColumns = unit.Kind == UnitKind.Checkerboard ? unit.Patches![0].Count : 0,
            Corner = unit.Kind == UnitKind.FlippedCorners ? scale.Of(unit.Corner!.Value) : default,
            CutWidth = unit.Kind == UnitKind.Template ? unit.CutWidth!.Value : default,
            CutHeight = unit.Kind == UnitKind.Template ? unit.CutHeight!.Value : default,
            Count = unit.Kind == UnitKind.Template ? unit.Count ?? 1 : 1,
            Half = unit.Kind == UnitKind.PiecedTriangle
                ? Of(unit.Inner!, scale.Times(across, Total(unit.Inner!.Columns)), index => PiecedHalf.IsSeen(unit.Inner!, unit.Inner!.Units[index]))
                : null,
            Inner = unit.Kind == UnitKind.Block ? Of(unit.Inner!, scale.Times(across, Total(unit.Inner!.Columns)), _ => true) : null,
        };
        for (var turned = 0; turned < unit.Turn; turned += 90)
        {
            form = form.Turned();
        }

        return form;
    }

    private static IReadOnlyList<string?> Letters(Unit unit) => unit.Kind switch
    {
        UnitKind.HalfSquareTriangle => [unit.Fabrics[0], unit.Fabrics[1], unit.Fabrics[1], unit.Fabrics[0]],
        UnitKind.SquareInASquare when unit.Fabrics.Count == 2 =>
            [unit.Fabrics[0], unit.Fabrics[1], unit.Fabrics[1], unit.Fabrics[1], unit.Fabrics[1]],
        UnitKind.Checkerboard => [.. unit.Patches!.SelectMany(row => row)],
        UnitKind.Block => [],
        _ => unit.Fabrics,
    };

    private static Length[] Edges(IReadOnlyList<Length> sizes)
    {
        var edges = new Length[sizes.Count + 1];
        for (var index = 0; index < sizes.Count; index++)
        {
            edges[index + 1] = edges[index] + sizes[index];
        }

        return edges;
    }

    internal static Length Total(IEnumerable<Length> lengths) => lengths.Aggregate(Length.Zero, (sum, one) => sum + one);

    /// <summary>An exact ratio of sizes.</summary>
    private readonly record struct Scale(BigInteger Up, BigInteger Down)
    {
        public static Scale One => new(1, 1);

        public Scale Times(Length up, Length down)
        {
            var divisor = BigInteger.GreatestCommonDivisor(Up * up.Ticks, Down * down.Ticks);
            return new(Up * up.Ticks / divisor, Down * down.Ticks / divisor);
        }

        public Length Of(Length length) => PartOf(length, 1);

        /// <summary>An equal part of the scaled length, rounded up to the tick.</summary>
        public Length PartOf(Length length, int parts)
        {
            var divisor = Down * parts;
            return Length.FromTicks((long)(((Up * length.Ticks) + divisor - 1) / divisor));
        }
    }
}
