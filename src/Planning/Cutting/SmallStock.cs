using Google.OrTools.Sat;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// Settles small demands where there are sheets: an integer program over every strip of every cloth that could be part of a
/// plan as cheap as the one known, sheet by sheet, with shop increments, the least cut and packs as they are.
/// </summary>
internal sealed class SmallStock
{
    /// <summary>Pieces in all; larger demands have too many strips to list.</summary>
    private const int MostPieces = 24;

    private const int MostStrips = 3_000;
    private const int MostPlaces = 40_000;
    private const double Work = 1.0;
    private const double Doubt = 1e-6;

    /// <summary>Money in the program is whole numbers of these parts.</summary>
    private const decimal Parts = 10_000m;

    private readonly CuttingModel _model;
    private readonly Relaxation _relaxation;
    private readonly int[] _need;
    private readonly CpModel _program = new();
    private readonly LinearExprBuilder[] _cut;
    private readonly LinearExprBuilder _cost = LinearExpr.NewBuilder();
    private readonly LinearExprBuilder _length = LinearExpr.NewBuilder();
    private readonly List<(int Ground, Recipe Strip, IntVar Times)> _bolt = [];
    private readonly List<(int Ground, List<(Recipe Strip, IntVar Times)> Strips)> _sheets = [];
    private readonly long _measure;
    private long _longest = 1;
    private int _places;

    private SmallStock(CuttingModel model, Relaxation relaxation)
    {
        (_model, _relaxation) = (model, relaxation);
        _need = [.. model.Sizes.Select(size => size.Demand)];
        _cut = [.. _need.Select(_ => LinearExpr.NewBuilder())];
        _measure = Floor.Measure(relaxation);
    }

    /// <summary>The cheapest plan, of those the one with the least bolt; none and true where the known cost is the least; false where it is not settled.</summary>
    /// <param name="model">What to cut.</param>
    /// <param name="relaxation">Its bound and worths.</param>
    /// <param name="best">The purchase of the best plan known, or null where none is.</param>
    /// <param name="clock">The safety net.</param>
    public static (IReadOnlyList<LayoutUse>? Plan, bool Settled) Settle(CuttingModel model, Relaxation relaxation, Purchase? best, CancellationToken clock)
    {
        if (model.Grounds.All(ground => ground.IsBolt))
        {
            return (null, false);
        }

        // The worths prove something only where the cloth suffices, too.
        var isPriced = relaxation.Missing < Doubt && relaxation.IsSolved;
        var known = best?.Cost;
        if (known is { } cost && model.Request.Objective == CuttingObjective.LeastWork)
        {
            // A plan as cheap is known: only one for less money is looked for.
            if (PurchaseSteps.NextBelow(model.Request.Stock, cost) is not { } less)
            {
                return (null, true);
            }

            known = less;
        }

        var small = new SmallStock(model, relaxation);
        var waste = isPriced && known is { } most ? small.WasteOf(most) : double.PositiveInfinity;
        if (waste < 0)
        {
            return (null, true);
        }

        var portioned = PortionPlan.Find(model, relaxation, waste, kind => small.MostSheets(kind, known ?? decimal.MaxValue), clock);
        var mayBeStated = !portioned.Settled && isPriced && relaxation.Tables.All(table => table.IsExact) && model.Sizes.Sum(size => (long)size.Demand) <= MostPieces;
        return mayBeStated && (known ?? PurchaseSteps.CostOfAll(model)) is { } limit && small.State(limit) ? small.Solve(clock) : portioned;
    }

    /// <summary>Writes the program; false where it is too large.</summary>
    private bool State(decimal known)
    {
        var waste = WasteOf(known);
        var limit = _program.NewConstant(decimal.ToInt64(decimal.Ceiling((known + 0.005m) * Parts)));
        for (var index = 0; index < _model.Grounds.Count; index++)
        {
            var ground = _model.Grounds[index];
            if (!ground.IsBolt && ground.Lengthwise)
            {
                continue;
            }

            if (!(ground.IsBolt ? AddBolt(index, waste, known) : AddSheets(index, waste, known)))
            {
                return false;
            }
        }

        for (var size = 0; size < _need.Length; size++)
        {
            _program.Add(_cut[size] >= _need[size]);
        }

        _program.Add(_cost <= limit);
        _program.Minimize(LinearExpr.NewBuilder().AddTerm(_cost, _longest).Add(_length));
        return true;
    }

    /// <summary>What a plan of a cost can be above the bound: in inches of bolt, the shelf's cloth at the little it counts for.</summary>
    private double WasteOf(decimal known)
    {
        var stock = _model.Request.Stock;
        var shelf = _model.Grounds.Select((ground, index) => (ground, index))
            .Where(one => one.ground is { IsBolt: false, Lengthwise: false } && stock.Sheets[one.ground.Sheet].Price == 0)
            .Sum(one => _relaxation.SheetCosts[one.index] * MostSheets(one.ground.Sheet, known));
        return ((double)(known + 0.005m) / SheetCost.PerInch(stock)) + shelf - _relaxation.Bound + Doubt;
    }

    private bool AddBolt(int index, double waste, decimal known)
    {
        var stock = _model.Request.Stock;
        if (Strips(index, (1 + ScarcityOf(-1)), waste, null) is not { } strips || PurchaseSteps.Lengths(stock, known) is not { } lengths)
        {
            return false;
        }

        _longest = Math.Max(1, lengths.Count == 0 ? 0 : Buying.Leaves(stock, lengths[^1]).Ticks / _measure) + 1;
        var room = LinearExpr.NewBuilder();
        var chosen = LinearExpr.NewBuilder();
        foreach (var length in lengths)
        {
            var bought = _program.NewBoolVar(string.Empty);
            chosen.Add(bought);
            room.AddTerm(bought, Buying.Leaves(stock, length).Ticks / _measure);
            _cost.AddTerm(bought, ToParts(Buying.BoltPrice(stock, length)));
        }

        foreach (var (strip, times) in strips.Select(strip => (strip, NewTimes(strip))))
        {
            _bolt.Add((index, strip, times));
            _length.AddTerm(times, strip.Height / _measure);
            Count(strip, times);
        }

        _program.Add(chosen <= 1);
        _program.Add(_length <= room);
        return true;
    }

    private bool AddSheets(int index, double waste, decimal known)
    {
        var kind = _model.Grounds[index].Sheet;
        var sheet = _model.Request.Stock.Sheets[kind];
        var ways = new List<(int Ground, List<Recipe> Strips)>();
        foreach (var ground in new[] { index, index + 1 })
        {
            var best = new LayoutPricing(_model, ground, _relaxation.Tables[ground], _relaxation.SheetCosts[ground]).BestWithin(_relaxation.Worth);
            if (Strips(ground, _relaxation.SheetCosts[ground] + ScarcityOf(kind), waste, best) is not { } strips)
            {
                return false;
            }

            ways.Add((ground, strips));
        }

        var most = MostSheets(kind, known);
        _places += most * ways.Sum(way => way.Strips.Count);
        if (_places > MostPlaces)
        {
            return false;
        }

        var all = LinearExpr.NewBuilder();
        BoolVar? before = null;
        for (var number = 0; number < most; number++)
        {
            var used = _program.NewBoolVar(string.Empty);
            all.Add(used);
            if (before is not null)
            {
                _program.AddImplication(used, before); // Equal sheets are used in their order.
            }

            before = used;
            var lengthwise = _program.NewBoolVar(string.Empty);
            foreach (var (ground, strips) in ways)
            {
                var filled = LinearExpr.NewBuilder();
                var list = strips.ConvertAll(strip => (strip, NewTimes(strip)));
                foreach (var (strip, times) in list)
                {
                    filled.AddTerm(times, strip.Height);
                    Count(strip, times);
                }

                var along = _model.Grounds[ground].Along;
                _program.Add(filled <= along * used);
                _program.Add(filled <= along * (_model.Grounds[ground].Lengthwise ? (LinearExpr)lengthwise : 1 - lengthwise));
                _sheets.Add((ground, list));
            }
        }

        if (sheet.Price > 0)
        {
            var packs = _program.NewIntVar(0, most, string.Empty);
            _program.Add(packs * sheet.PackSize >= all);
            _cost.AddTerm(packs, ToParts(sheet.Price * sheet.PackSize));
        }

        return true;
    }

    /// <summary>Sheets of a kind that a plan of the cost can have: as many as there are, as the money buys, and as there are pieces.</summary>
    private int MostSheets(int kind, decimal known)
    {
        var sheet = _model.Request.Stock.Sheets[kind];
        var most = (int)Math.Min(_need.Sum(need => (long)need), sheet.Available ?? int.MaxValue);
        return sheet.Price == 0 || known == decimal.MaxValue ? most : (int)Math.Min(most, decimal.Floor((known + 0.005m) / (sheet.Price * sheet.PackSize)) * sheet.PackSize);
    }

    private List<Recipe>? Strips(int ground, double cost, double waste, Func<long, double>? rest)
    {
        var along = _model.Grounds[ground].Along;
        var strips = StripCensus.Take(_relaxation.Tables[ground], _relaxation.Worth, _need, ticks => rest is null
            ? ((double)ticks / Length.TicksPerInch * cost) - waste
            : cost - waste - rest(along - ticks));
        return strips is null || strips.Count > MostStrips ? null : [.. strips];
    }

    private double ScarcityOf(int sheet) => _relaxation.Scarcity.Where(one => _model.Grounds[one.Ground].Sheet == sheet).Sum(one => one.Worth);

    private IntVar NewTimes(Recipe strip) => _program.NewIntVar(0, _need.Where((_, size) => strip.Yield[size] > 0).Max(), string.Empty);

    private void Count(Recipe strip, IntVar times)
    {
        for (var size = 0; size < _need.Length; size++)
        {
            if (strip.Yield[size] > 0)
            {
                _cut[size].AddTerm(times, strip.Yield[size]);
            }
        }
    }

    private (IReadOnlyList<LayoutUse>? Plan, bool Settled) Solve(CancellationToken clock)
    {
        var solver = new CpSolver
        {
            StringParameters = FormattableString.Invariant($"num_workers:1,random_seed:1,max_deterministic_time:{Work}"),
        };
        using var alarm = clock.Register(solver.StopSearch);
        var status = solver.Solve(_program);
        if (status is not (CpSolverStatus.Optimal or CpSolverStatus.Feasible))
        {
            return (null, status == CpSolverStatus.Infeasible);
        }

        var uses = _bolt
            .Select(one => new LayoutUse(Layout.OfStrip(one.Ground, one.Strip, (double)one.Strip.Height / Length.TicksPerInch), (int)solver.Value(one.Times)))
            .Where(use => use.Times > 0)
            .Concat(_sheets
                .Select(one => (one.Ground, Strips: one.Strips.SelectMany(pair => Enumerable.Repeat(pair.Strip, (int)solver.Value(pair.Times))).ToList()))
                .Where(one => one.Strips.Count > 0)
                .Select(one => new LayoutUse(Layout.OfSheet(one.Ground, one.Strips, _relaxation.SheetCosts[one.Ground]), 1)))
            .ToList();
        return (uses, status == CpSolverStatus.Optimal);
    }

    private static long ToParts(decimal money) => decimal.ToInt64(decimal.Round(money * Parts));
}
