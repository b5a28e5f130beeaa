using Google.OrTools.Sat;

namespace KittingBee.Planning.Blocks;

/// <summary>
/// Chooses the side of every seam by an integer program: one yes-or-no variable a seam (pressed right or down), one a
/// crossing (nests), one a row (all one way). The three aims are weighted so that one crossing outweighs everything after it,
/// and one seam toward a pieced unit outweighs every row.
/// </summary>
internal sealed class PressingSearch
{
    /// <summary>Patches that meet in one point before a seam through it is pressed open.</summary>
    private const int TooManyLayers = 8;

    /// <summary>Work limit of the solver, in its own units and so the same on every machine; blocks take a small part of it.</summary>
    private const double WorkLimit = 20;

    private readonly PlacedBlock block;
    private readonly List<AssemblyPiece> joins;
    private readonly List<Seam> seams = [];

    private PressingSearch(PlacedBlock block, AssemblyPiece assembly)
    {
        this.block = block;
        joins = [.. assembly.PartsFirst().Where(piece => piece.Join != JoinKind.Unit)];
    }

    public static PressingPlan For(Block block, AssemblyPiece assembly)
    {
        var search = new PressingSearch(PlacedBlock.Of(block), assembly);
        search.FindSeams(BlockPatches.Of(block));
        return search.Solve();
    }

    private void FindSeams(BlockPatches patches)
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
                var seam = upright
                    ? new Seam(index, true, part.Column, join.Row, join.Row + join.RowSpan)
                    : new Seam(index, false, part.Row, join.Column, join.Column + join.ColumnSpan);
                seams.Add(seam with { IsOpen = PassesThickPoint(seam, corners) });
            }
        }
    }

    private bool PassesThickPoint(Seam seam, Dictionary<PatchPoint, int> corners)
    {
        for (var cross = seam.From + 1; cross < seam.To; cross++)
        {
            var point = seam.IsUpright
                ? new PatchPoint(block.ColumnEdges[seam.Line], block.RowEdges[cross])
                : new PatchPoint(block.ColumnEdges[cross], block.RowEdges[seam.Line]);
            if (corners.GetValueOrDefault(point) >= TooManyLayers)
            {
                return true;
            }
        }

        return false;
    }

    private PressingPlan Solve()
    {
        var model = new CpModel();
        var farSide = seams.Select((_, index) => model.NewBoolVar($"far{index}")).ToList();
        var crossings = Crossings();
        var nests = crossings.Select(pair =>
        {
            var nest = model.NewBoolVar("");
            var (one, other) = pair;
            if (seams[one].IsOpen || seams[other].IsOpen)
            {
                model.Add(nest == 0);
            }
            else
            {
                model.Add(farSide[one] + farSide[other] == 1).OnlyEnforceIf(nest);
            }

            return nest;
        }).ToList();
        var toward = seams.Select((seam, index) => Toward(seam, farSide[index])).ToList();
        var rows = Enumerable.Range(0, seams.Count).Where(index => !seams[index].IsOpen).GroupBy(index => seams[index].Join)
            .Where(row => row.Skip(1).Any()).Select(row => row.ToList()).ToList();
        var oneWay = rows.Select(row =>
        {
            var whole = model.NewBoolVar("");
            foreach (var (first, next) in row.Zip(row.Skip(1)))
            {
                model.Add(farSide[first] == farSide[next]).OnlyEnforceIf(whole);
            }

            return whole;
        }).ToList();

        // The last, smallest weight only settles ties, so that the same block always has the same plan.
        var tie = seams.Count + 1L;
        var rowWeight = tie;
        var towardWeight = rowWeight * (rows.Count + 1);
        var nestWeight = towardWeight * (seams.Count + 1);
        model.Maximize(
            (LinearExpr.Sum(nests) * nestWeight) - (LinearExpr.Sum(toward) * towardWeight)
            + (LinearExpr.Sum(oneWay) * rowWeight) - LinearExpr.Sum(farSide));
        var solver = new CpSolver { StringParameters = $"num_workers:1,random_seed:1,max_deterministic_time:{WorkLimit}" };
        var status = seams.Count == 0 ? CpSolverStatus.Optimal : solver.Solve(model);
        if (status is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible))
        {
            throw new InvalidOperationException($"A pressing plan always exists, but the solver says {status}.");
        }

        bool Far(int index) => solver.BooleanValue(farSide[index]);
        return new(
            joins,
            [.. seams.Select((seam, index) => new PressedSeam(seam.Join, seam.IsUpright, seam.Line, seam.From, seam.To, Press(seam, seam.IsOpen || Far(index))))],
            crossings.Count,
            nests.Count(nest => solver.BooleanValue(nest)),
            seams.Where((seam, index) => !seam.IsOpen && IsPieced(seam, Far(index))).Count(),
            rows.Count,
            oneWay.Count(whole => solver.BooleanValue(whole)));
    }

    private static PressTo Press(Seam seam, bool far) => seam switch
    {
        { IsOpen: true } => PressTo.Open,
        { IsUpright: true } => far ? PressTo.Right : PressTo.Left,
        _ => far ? PressTo.Down : PressTo.Up,
    };

    /// <summary>1 when the seam is pressed toward a pieced unit, as an expression of its side.</summary>
    private LinearExpr Toward(Seam seam, BoolVar far)
    {
        if (seam.IsOpen)
        {
            return LinearExpr.Constant(0);
        }

        var (near, beyond) = (IsPieced(seam, false) ? 1 : 0, IsPieced(seam, true) ? 1 : 0);
        return (far * (beyond - near)) + near;
    }

    /// <summary>Whether a pieced unit touches the seam on its far side (right, below) or on its near side.</summary>
    private bool IsPieced(Seam seam, bool far) => block.Units.Any(unit =>
    {
        var (edge, start, end) = seam.IsUpright
            ? (far ? unit.Column : unit.Column + unit.ColumnSpan, unit.Row, unit.Row + unit.RowSpan)
            : (far ? unit.Row : unit.Row + unit.RowSpan, unit.Column, unit.Column + unit.ColumnSpan);
        return edge == seam.Line && start < seam.To && end > seam.From && unit.Form.Kind is not (UnitKind.Plain or UnitKind.Template);
    });

    /// <summary>Pairs of seams that lie on one line and meet end to end.</summary>
    private List<(int One, int Other)> Crossings()
    {
        var starts = seams.Index().ToDictionary(item => (item.Item.IsUpright, item.Item.Line, item.Item.From), item => item.Index);
        return
        [
            .. seams.Index()
                .Where(item => starts.ContainsKey((item.Item.IsUpright, item.Item.Line, item.Item.To)))
                .Select(item => (item.Index, starts[(item.Item.IsUpright, item.Item.Line, item.Item.To)])),
        ];
    }

    private sealed record Seam(int Join, bool IsUpright, int Line, int From, int To)
    {
        public bool IsOpen { get; init; }
    }
}
