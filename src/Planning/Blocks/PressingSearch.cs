using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Gathers the seams of a block, between its units and inside them, has their sides chosen, and writes the plan.</summary>
internal sealed class PressingSearch
{
    /// <summary>Patches that meet in one point before a seam through it is pressed open.</summary>
    private const int TooManyLayers = 8;

    private readonly PlacedBlock block;
    private readonly List<AssemblyPiece> joins;
    private readonly List<Joint> joints = [];
    private readonly List<(PlacedUnit Unit, UnitSeam Seam)> inside;

    private PressingSearch(PlacedBlock block, AssemblyPiece assembly)
    {
        this.block = block;
        joins = [.. assembly.PartsFirst().Where(piece => piece.Join != JoinKind.Unit)];
        inside = [.. block.Units.SelectMany(unit => UnitSeams.Of(unit.Form).Select(seam => (unit, seam with { From = InBlock(unit, seam.From), To = InBlock(unit, seam.To) })))];
    }

    public static PressingPlan For(Block block, AssemblyPiece assembly)
    {
        var search = new PressingSearch(PlacedBlock.Of(block), assembly);
        search.FindJoints(BlockPatches.Of(block));
        return search.Solve();
    }

    private PatchPoint InBlock(PlacedUnit unit, PatchPoint point) => new(block.ColumnEdges[unit.Column] + point.X, block.RowEdges[unit.Row] + point.Y);

    private void FindJoints(BlockPatches patches)
    {
        var corners = patches.Patches.SelectMany(patch => patch.Corners).CountBy(point => point).ToDictionary();
        for (var index = 0; index < joins.Count; index++)
        {
            var join = joins[index];
            if (join.Join == JoinKind.PartialSeam)
            {
                continue;
            }

            var upright = join.Join == JoinKind.SideBySide;
            foreach (var part in join.Parts.Skip(1))
            {
                var joint = upright
                    ? new Joint(index, true, part.Column, join.Row, join.Row + join.RowSpan)
                    : new Joint(index, false, part.Row, join.Column, join.Column + join.ColumnSpan);
                joints.Add(joint with { IsOpen = PassesThickPoint(joint, corners) });
            }
        }
    }

    private PatchPoint PointOn(Joint joint, int cross) => joint.IsUpright
        ? new(block.ColumnEdges[joint.Line], block.RowEdges[cross])
        : new(block.ColumnEdges[cross], block.RowEdges[joint.Line]);

    private bool PassesThickPoint(Joint joint, Dictionary<PatchPoint, int> corners) =>
        Enumerable.Range(joint.From + 1, joint.To - joint.From - 1).Any(cross => corners.GetValueOrDefault(PointOn(joint, cross)) >= TooManyLayers);

    private PressingPlan Solve()
    {
        var crossings = SeamCrossings.Of(Lines(), Ends());
        var rows = joints.Index().Where(item => !item.Item.IsOpen).GroupBy(item => item.Item.Join, item => item.Index)
            .Where(row => row.Skip(1).Any()).Select(row => (IReadOnlyList<int>)[.. row]).ToList();
        var choice = new PressingChoice(
            [
                .. joints.Select(joint => new PressedLine(joint.IsUpright, joint.IsOpen, IsPieced(joint, false), IsPieced(joint, true), null, null)),
                .. inside.Select(item => new PressedLine(null, false, false, false, (item.Unit.Number, item.Seam.Choice, item.Seam.IsOpposite), item.Seam.Fixed)
                {
                    Prefers = string.CompareOrdinal(item.Seam.Right, item.Seam.Left) > 0,
                }),
            ],
            [.. crossings.Select(crossing => new NestingRule(
                [.. crossing.Near.Select(end => Lies(end, crossing.UnderUpright))],
                [.. crossing.Far.Select(end => Lies(end, crossing.UnderUpright))]))],
            rows);
        var (far, nested, isProved) = choice.Solve();
        return new(
            joins,
            [.. joints.Select((joint, index) => new PressedSeam(joint.Join, joint.IsUpright, joint.Line, joint.From, joint.To, Press(joint, far[index])))],
            crossings.Count,
            nested,
            joints.Where((joint, index) => !joint.IsOpen && IsPieced(joint, far[index])).Count(),
            rows.Count,
            rows.Count(row => row.All(index => far[index] == far[row[0]])),
            [.. inside.Select((item, index) => Pressed(item.Unit, item.Seam, far[joints.Count + index]))],
            isProved);
    }

    private static PressedUnitSeam Pressed(PlacedUnit unit, UnitSeam seam, bool right) =>
        new(unit.Number, unit.Form.Kind, unit.Row, unit.Column, seam.From, seam.To, right, right ? seam.Right : seam.Left, seam.Fixed is not null);

    /// <summary>Which way along the line above it a seam's allowance lies at its end: far (right, down) when the seam's own choice says so, or when it does not.</summary>
    private (int Seam, bool Same) Lies(SeamEnd end, bool underUpright)
    {
        if (end.Seam < joints.Count)
        {
            return (end.Seam, true);
        }

        // The right-hand side of a way (x, y) is (−y, x), with y downward.
        var seam = inside[end.Seam - joints.Count].Seam;
        return (end.Seam, underUpright ? seam.To.X > seam.From.X : seam.To.Y < seam.From.Y);
    }

    /// <summary>All that is sewn over ends: the joints, and the edges between the parts of a partial seam.</summary>
    private IEnumerable<SewnLine> Lines() => joints
        .Select(joint => Line(joint.IsUpright, joint.Line, joint.From, joint.To))
        .Concat(joins.Where(join => join.Join == JoinKind.PartialSeam).SelectMany(Edges));

    private IEnumerable<SewnLine> Edges(AssemblyPiece piece) =>
        from one in piece.Parts
        from other in piece.Parts
        let beside = one.Column + one.ColumnSpan == other.Column
        let below = one.Row + one.RowSpan == other.Row
        let start = beside ? Math.Max(one.Row, other.Row) : Math.Max(one.Column, other.Column)
        let end = beside ? Math.Min(one.Row + one.RowSpan, other.Row + other.RowSpan) : Math.Min(one.Column + one.ColumnSpan, other.Column + other.ColumnSpan)
        where (beside || below) && end > start
        select Line(beside, beside ? other.Column : other.Row, start, end);

    private SewnLine Line(bool upright, int line, int from, int to) => upright
        ? new(true, block.ColumnEdges[line], block.RowEdges[from], block.RowEdges[to])
        : new(false, block.RowEdges[line], block.ColumnEdges[from], block.ColumnEdges[to]);

    private IEnumerable<SeamEnd> Ends()
    {
        foreach (var (index, joint) in joints.Index())
        {
            foreach (var end in Both(index, PointOn(joint, joint.From), PointOn(joint, joint.To)))
            {
                yield return end;
            }
        }

        foreach (var (index, item) in inside.Index())
        {
            foreach (var end in Both(joints.Count + index, item.Seam.From, item.Seam.To))
            {
                yield return end;
            }
        }
    }

    private static SeamEnd[] Both(int seam, PatchPoint from, PatchPoint to) =>
        [new(seam, from, to.X - from.X, to.Y - from.Y), new(seam, to, from.X - to.X, from.Y - to.Y)];

    private static PressTo Press(Joint joint, bool far) => joint switch
    {
        { IsOpen: true } => PressTo.Open,
        { IsUpright: true } => far ? PressTo.Right : PressTo.Left,
        _ => far ? PressTo.Down : PressTo.Up,
    };

    /// <summary>Whether a pieced unit touches the joint on its far side (right, below) or on its near side.</summary>
    private bool IsPieced(Joint joint, bool far) => block.Units.Any(unit =>
    {
        var (edge, start, end) = joint.IsUpright
            ? (far ? unit.Column : unit.Column + unit.ColumnSpan, unit.Row, unit.Row + unit.RowSpan)
            : (far ? unit.Row : unit.Row + unit.RowSpan, unit.Column, unit.Column + unit.ColumnSpan);
        return edge == joint.Line && start < joint.To && end > joint.From && unit.Form.Kind is not (UnitKind.Plain or UnitKind.Template);
    });

    private sealed record Joint(int Join, bool IsUpright, int Line, int From, int To)
    {
        public bool IsOpen { get; init; }
    }
}
