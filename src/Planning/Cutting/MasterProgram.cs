using Google.OrTools.LinearSolver;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// The linear program of all layouts known so far: least cost, every size's demand met, no more sheets of a kind and no
/// more bolt than there is. Its dual values say what a piece of each size is worth at present.
/// </summary>
internal sealed class MasterProgram : IDisposable
{
    private const double Unbounded = double.PositiveInfinity;

    /// <summary>Cost of a piece that is not cut at all, in inches of bolt for each inch of its greater side: more than any strip of its own.</summary>
    private const double CostOfMissing = 1000;

    private readonly Solver _solver;
    private readonly CuttingModel _model;
    private readonly Constraint[] _demand;
    private readonly Dictionary<int, Constraint> _limits = [];
    private readonly Dictionary<int, double> _scarcity = [];
    private readonly List<Variable> _variables = [];
    private readonly Variable[] _missing;
    private readonly HashSet<string> _keys = [];

    public MasterProgram(CuttingModel model, IReadOnlyList<double> demand, string solver = "GLOP")
    {
        _model = model;
        _solver = Solver.CreateSolver(solver) ?? throw new InvalidOperationException($"The linear solver {solver} is not part of this build.");
        _demand = [.. demand.Select((need, size) => _solver.MakeConstraint(need, Unbounded, $"size {size}"))];
        _missing = new Variable[_demand.Length];
        _solver.Objective().SetMinimization();
        for (var size = 0; size < _demand.Length; size++)
        {
            var greater = Math.Max(model.Sizes[size].Width.Ticks, model.Sizes[size].Height.Ticks);
            _missing[size] = _solver.MakeNumVar(0, Unbounded, $"missing {size}");
            _solver.Objective().SetCoefficient(_missing[size], CostOfMissing * greater / Measures.Length.TicksPerInch);
            _demand[size].SetCoefficient(_missing[size], 1);
        }

        foreach (var (kind, most) in Limits(model))
        {
            _limits.Add(kind, _solver.MakeConstraint(double.NegativeInfinity, most, $"stock {kind}"));
        }

        Duals = new double[_demand.Length];
    }

    public List<Layout> Layouts { get; } = [];

    /// <summary>How often each layout is used in the last solution.</summary>
    public double[] Uses { get; private set; } = [];

    /// <summary>Worth of one more piece of each size; never below zero.</summary>
    public double[] Duals { get; }

    public double Cost { get; private set; }

    /// <summary>Pieces that the last solution leaves out, in all.</summary>
    public double Missing { get; private set; }

    /// <summary>Adds a layout unless one like it is there.</summary>
    public bool Add(Layout layout)
    {
        if (!_keys.Add(layout.Key))
        {
            return false;
        }

        var variable = _solver.MakeNumVar(0, Unbounded, string.Empty);
        _solver.Objective().SetCoefficient(variable, layout.Cost);
        for (var size = 0; size < _demand.Length; size++)
        {
            if (layout.Yield[size] > 0)
            {
                _demand[size].SetCoefficient(variable, layout.Yield[size]);
            }
        }

        var ground = _model.Grounds[layout.Ground];
        if (_limits.TryGetValue(ground.Sheet, out var limit))
        {
            limit.SetCoefficient(variable, ground.IsBolt ? (double)layout.Height / Measures.Length.TicksPerInch : 1);
        }

        Layouts.Add(layout);
        _variables.Add(variable);
        return true;
    }

    /// <summary>What a sheet, or an inch of bolt, is worth beyond its price because there is no more of it; never below zero.</summary>
    public double ScarcityOf(int sheet) => _scarcity.GetValueOrDefault(sheet);

    public void Solve()
    {
        var status = _solver.Solve();
        if (status != Solver.ResultStatus.OPTIMAL)
        {
            throw new InvalidOperationException($"The linear program of the cutting plan ended as {status}.");
        }

        Cost = _solver.Objective().Value();
        Uses = [.. _variables.Select(variable => Math.Max(0, variable.SolutionValue()))];
        Missing = _missing.Sum(variable => variable.SolutionValue());
        for (var size = 0; size < _demand.Length; size++)
        {
            Duals[size] = Math.Max(0, _demand[size].DualValue());
        }

        // Read at once: the solver forgets its solution when a layout is added.
        foreach (var (sheet, limit) in _limits)
        {
            _scarcity[sheet] = Math.Max(0, -limit.DualValue());
        }
    }

    public void Dispose()
    {
        foreach (var variable in _variables.Concat(_missing))
        {
            variable.Dispose();
        }

        foreach (var constraint in _demand.Concat(_limits.Values))
        {
            constraint.Dispose();
        }

        _solver.Dispose();
    }

    /// <summary>How much there is of what is limited: sheets by index, and inches of washed bolt under −1.</summary>
    public static IEnumerable<(int Sheet, double Most)> Limits(CuttingModel model)
    {
        var stock = model.Request.Stock;
        if (stock.Bolt?.Available is { } available)
        {
            yield return (-1, (double)Buying.Leaves(stock, available).Ticks / Measures.Length.TicksPerInch);
        }

        for (var sheet = 0; sheet < stock.Sheets.Count; sheet++)
        {
            if (stock.Sheets[sheet].Available is { } number)
            {
                yield return (sheet, number);
            }
        }
    }
}
