using Google.OrTools.Sat;

namespace KittingBee.Planning.Blocks;

/// <summary>
/// Chooses the side of every seam. Seams that meet end to end form chains along a grid line, and a chain nests at every
/// crossing when its seams are pressed by turns to one side and the other; so all crossings nest but those at an open seam,
/// and one yes-or-no choice a chain is left. What a choice costs in seams toward pieced units is the chain's own affair, which
/// settles most chains. The free ones are chosen by an integer program so that most rows are pressed one way.
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
        var crossings = Crossings();
        var chains = Chains(crossings);
        var rows = Enumerable.Range(0, seams.Count).Where(index => !seams[index].IsOpen).GroupBy(index => seams[index].Join)
            .Where(row => row.Skip(1).Any()).Select(row => row.ToList()).ToList();
        var far = Choose(chains, rows);
        return new(
            joins,
            [.. seams.Select((seam, index) => new PressedSeam(seam.Join, seam.IsUpright, seam.Line, seam.From, seam.To, Press(seam, far[index])))],
            crossings.Count,
            crossings.Count(pair => !seams[pair.Key].IsOpen && !seams[pair.Value].IsOpen && far[pair.Key] != far[pair.Value]),
            seams.Where((seam, index) => !seam.IsOpen && IsPieced(seam, far[index])).Count(),
            rows.Count,
            rows.Count(row => row.All(index => far[index] == far[row[0]])));
    }

    /// <summary>Chains of seams from one end to the other; open seams are in none.</summary>
    private List<List<int>> Chains(Dictionary<int, int> next)
    {
        var closed = next.Where(pair => !seams[pair.Key].IsOpen && !seams[pair.Value].IsOpen).ToDictionary();
        var later = closed.Values.ToHashSet();
        var chains = new List<List<int>>();
        foreach (var start in Enumerable.Range(0, seams.Count).Where(index => !seams[index].IsOpen && !later.Contains(index)))
        {
            var chain = new List<int> { start };
            while (closed.TryGetValue(chain[^1], out var following))
            {
                chain.Add(following);
            }

            chains.Add(chain);
        }

        return chains;
    }

    private bool[] Choose(List<List<int>> chains, List<List<int>> rows)
    {
        var model = new CpModel();
        var side = new ILiteral[seams.Count];
        var ties = new List<LinearExpr>();
        foreach (var chain in chains)
        {
            var first = model.NewBoolVar("");
            foreach (var (place, seam) in chain.Index())
            {
                side[seam] = place % 2 == 0 ? first : first.Not();
            }

            var near = chain.Where((seam, place) => IsPieced(seams[seam], place % 2 == 1)).Count();
            var far = chain.Where((seam, place) => IsPieced(seams[seam], place % 2 == 0)).Count();
            if (near != far)
            {
                model.Add(first == (far < near ? 1 : 0));
            }

            ties.Add(first * (chain.Count % 2 == 0 ? 0 : 1));
        }

        var oneWay = rows.Select(row =>
        {
            var whole = model.NewBoolVar("");
            foreach (var (one, other) in row.Zip(row.Skip(1)))
            {
                model.AddImplication(side[one], side[other]).OnlyEnforceIf(whole);
                model.AddImplication(side[other], side[one]).OnlyEnforceIf(whole);
            }

            return whole;
        }).ToList();

        // The small weight settles ties, so that the same block always has the same plan.
        model.Maximize((LinearExpr.Sum(oneWay) * (chains.Count + 1L)) - LinearExpr.Sum(ties));
        var solver = new CpSolver { StringParameters = $"num_workers:1,random_seed:1,max_deterministic_time:{WorkLimit}" };
        var status = chains.Count == 0 ? CpSolverStatus.Optimal : solver.Solve(model);
        return status is CpSolverStatus.Optimal or CpSolverStatus.Feasible
            ? [.. side.Select(literal => literal is not null && solver.BooleanValue(literal))]
            : throw new InvalidOperationException($"A pressing plan always exists, but the solver says {status}.");
    }

    private static PressTo Press(Seam seam, bool far) => seam switch
    {
        { IsOpen: true } => PressTo.Open,
        { IsUpright: true } => far ? PressTo.Right : PressTo.Left,
        _ => far ? PressTo.Down : PressTo.Up,
    };

    /// <summary>Whether a pieced unit touches the seam on its far side (right, below) or on its near side.</summary>
    private bool IsPieced(Seam seam, bool far) => block.Units.Any(unit =>
    {
        var (edge, start, end) = seam.IsUpright
            ? (far ? unit.Column : unit.Column + unit.ColumnSpan, unit.Row, unit.Row + unit.RowSpan)
            : (far ? unit.Row : unit.Row + unit.RowSpan, unit.Column, unit.Column + unit.ColumnSpan);
        return edge == seam.Line && start < seam.To && end > seam.From && unit.Form.Kind is not (UnitKind.Plain or UnitKind.Template);
    });

    /// <summary>For each seam that ends where another on its line begins, that other one.</summary>
    private Dictionary<int, int> Crossings()
    {
        var starts = seams.Index().ToDictionary(item => (item.Item.IsUpright, item.Item.Line, item.Item.From), item => item.Index);
        return seams.Index()
            .Where(item => starts.ContainsKey((item.Item.IsUpright, item.Item.Line, item.Item.To)))
            .ToDictionary(item => item.Index, item => starts[(item.Item.IsUpright, item.Item.Line, item.Item.To)]);
    }

    private sealed record Seam(int Join, bool IsUpright, int Line, int From, int To)
    {
        public bool IsOpen { get; init; }
    }
}
