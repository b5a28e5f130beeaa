using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// The linear relaxation, solved by asking for better layouts until there are none (Gilmore and Gomory 1961). Its cost is
/// a bound under which no plan can go; its layouts are what whole-number plans are made from.
/// </summary>
internal sealed class Relaxation
{
    /// <summary>Rounds of asking. Forty sizes need about twenty; the bound holds wherever it stops.</summary>
    private const int MostRounds = 300;

    private const int MostFirst = 3_000;

    /// <summary>Doubles of the solver are this good.</summary>
    private const double Doubt = 1e-6;

    private readonly CuttingModel _model;
    private readonly LayoutPricing[] _pricing;

    private Relaxation(CuttingModel model, GroundTables[] tables, double[] sheetCosts)
    {
        _model = model;
        Tables = tables;
        _pricing = [.. tables.Select((table, ground) => new LayoutPricing(model, ground, table, sheetCosts[ground]))];
        SheetCosts = sheetCosts;
    }

    public GroundTables[] Tables { get; }

    /// <summary>Cost of a sheet by ground, in inches of bolt; zero for the bolt.</summary>
    public double[] SheetCosts { get; }

    /// <summary>All layouts that were asked for.</summary>
    public List<Layout> Layouts { get; private set; } = [];

    /// <summary>How often each layout is used in the relaxed solution.</summary>
    public double[] Uses { get; private set; } = [];

    /// <summary>Worth of a piece of each size, in inches of bolt.</summary>
    public double[] Worth { get; private set; } = [];

    /// <summary>A piece's share of the cloth by its area, by size, such that all pieces together are worth the relaxed cost.</summary>
    public double[] AreaWorth { get; private set; } = [];

    /// <summary>By ground, one for each limited kind of cloth: what a sheet or an inch of bolt is worth beyond its price.</summary>
    public List<(int Ground, double Worth)> Scarcity { get; } = [];

    /// <summary>Cost that no plan can be under, in inches of bolt.</summary>
    public double Bound { get; private set; }

    /// <summary>Cost of the relaxed solution; the bound, but for rounding.</summary>
    public double Cost { get; private set; }

    /// <summary>Pieces that the cloth to be had cannot give, even cut in fractions.</summary>
    public double Missing { get; private set; }

    /// <summary>True where the program was solved to its end: the worths prove something then.</summary>
    public bool IsSolved => Cost - Bound < Doubt * (1 + Cost);

    public int Rounds { get; private set; }

    public static Relaxation Solve(CuttingModel model, GroundTables[] tables, double[] sheetCosts, CancellationToken clock, string solver = "GLOP")
    {
        var relaxation = new Relaxation(model, tables, sheetCosts);
        relaxation.Run(solver, clock);
        return relaxation;
    }

    private void Run(string solver, CancellationToken clock)
    {
        var demand = _model.Sizes.Select(size => (double)size.Demand).ToArray();
        using var master = new MasterProgram(_model, demand, solver);
        foreach (var layout in First())
        {
            master.Add(layout);
        }

        while (true)
        {
            master.Solve();
            Rounds++;
            var found = false;
            var ratio = 1.0;
            for (var ground = 0; ground < _pricing.Length; ground++)
            {
                var scarcity = master.ScarcityOf(_model.Grounds[ground].Sheet);
                foreach (var layout in _pricing[ground].Find(master.Duals, scarcity, clock))
                {
                    found |= master.Add(layout);
                }

                ratio = Math.Max(ratio, _pricing[ground].BestRatio);
            }

            // Where the clock ended the asking, the best ratio is not known and the worths prove nothing.
            if (master.Missing < 1e-7 && !clock.IsCancellationRequested)
            {
                Bound = Math.Max(Bound, BoundOf(master, demand, ratio));
            }

            if (!found || Rounds >= MostRounds || clock.IsCancellationRequested)
            {
                break;
            }
        }

        // Layouts found in a last round that the clock or the limit ended were not solved with and have no use yet.
        Layouts = [.. master.Layouts.Take(master.Uses.Length)];
        Uses = master.Uses;
        Worth = [.. master.Duals];
        Cost = master.Cost;
        Missing = master.Missing;
        var areas = _model.Sizes.Select(size => (double)size.Width.Ticks * size.Height.Ticks).ToArray();
        var perArea = Cost / demand.Select((need, size) => need * areas[size]).Sum();
        AreaWorth = [.. areas.Select(area => area * perArea)];
        for (var ground = 0; ground < _model.Grounds.Count; ground++)
        {
            if (!_model.Grounds[ground].Lengthwise && master.ScarcityOf(_model.Grounds[ground].Sheet) is > 0 and var scarcity)
            {
                Scarcity.Add((ground, scarcity));
            }
        }
    }

    /// <summary>
    /// Layouts of one size. Hundreds of sizes on many kinds of sheets make thousands of them: there, the bolt's are enough to
    /// begin with, and a plan of filled sheets beside them.
    /// </summary>
    private IEnumerable<Layout> First()
    {
        if (Tables.Sum(table => table.Facings.Length) <= MostFirst || !_model.Grounds[0].IsBolt)
        {
            return Tables.SelectMany((table, ground) => FirstLayouts.On(table, ground, SheetCosts[ground]));
        }

        return FirstLayouts.On(Tables[0], 0, SheetCosts[0]).Concat(LeveledSheets.Fill(_model, Tables, SheetCosts, new Remainder(_model)));
    }

    /// <summary>
    /// Worths divided by the best ratio are feasible for the dual program, so their total is a bound at any round (Farley
    /// 1990). Where the tables are coarse, the ratio comes from those that are rounded in the cloth's favour.
    /// </summary>
    private double BoundOf(MasterProgram master, double[] demand, double ratio)
    {
        for (var ground = 0; ground < _pricing.Length; ground++)
        {
            if (!Tables[ground].IsExact)
            {
                ratio = Math.Max(ratio, _pricing[ground].RatioBound(master.Duals, master.ScarcityOf(_model.Grounds[ground].Sheet)));
            }
        }

        var worth = demand.Select((need, size) => need * master.Duals[size]).Sum() / ratio;
        return worth - MasterProgram.Limits(_model).Sum(limit => limit.Most * master.ScarcityOf(limit.Sheet));
    }
}
