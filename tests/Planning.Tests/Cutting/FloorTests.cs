using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

public sealed class FloorTests
{
    /// <summary>Seeds of all the mixed classes.</summary>
    public static TheoryData<int> Classes => [.. Enumerable.Range(0, 40)];

    /// <summary>A simplex code by other hands asks for layouts of its own and must end at the same cost.</summary>
    [Theory]
    [MemberData(nameof(Classes))]
    public void Floor_SolvedByASecondSolver_IsTheSame(int seed)
    {
        var request = ClassCases.Mixed(seed);
        var one = Relax(request, "GLOP");
        var other = Relax(request, "CLP");
        Assert.Equal(one.Cost, other.Cost, one.Cost * 1e-7);
        Assert.Equal(one.Bound, other.Bound, one.Bound * 1e-6);
    }

    /// <summary>When no layout improves it, the program's cost and the bound from its worths meet.</summary>
    [Theory]
    [MemberData(nameof(Classes))]
    public void Floor_AtTheEnd_MeetsTheCostOfTheRelaxedPlan(int seed)
    {
        var relaxation = Relax(ClassCases.Mixed(seed), "GLOP");
        Assert.Equal(relaxation.Cost, relaxation.Bound, relaxation.Cost * 1e-6);
    }

    /// <summary>Sixteen 2½ in squares lie across 40 in with nothing to spare: the floor is the area, whole strips or not.</summary>
    [Fact]
    public void Floor_SquaresThatFillTheWidth_IsTheirArea()
    {
        var plan = Proved(Cut(Bolt(40, 0.125m), Piece("square", 2.5m, 2.5m, 160)) with { Objective = CuttingObjective.LeastLength });
        Assert.Equal(In(25), plan.Floor);
        Assert.Equal(In(25), plan.Length);
        Assert.Equal(PlanStatus.ProvedBest, plan.Status);
    }

    /// <summary>A shelf sheet of four rows of sixteen leaves six rows for the bolt: the floor is what no use of the sheet can save.</summary>
    [Fact]
    public void Floor_BesideAShelfSheet_IsTheBoltThatIsStillNeeded()
    {
        var squares = Piece("square", 2.5m, 2.5m, 160);
        var plan = Proved(Cut(Bolt(40, 0.125m), squares) with
        {
            Stock = new CuttingStock(Bolt(40, 0.125m), [Sheet("remnant", 40, 10, available: 1)]),
            Objective = CuttingObjective.LeastLength,
        });
        Assert.Equal(In(15), plan.Floor);
        Assert.Equal(In(15), plan.Length);
        Assert.Equal(PlanStatus.ProvedBest, plan.Status);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void Floor_BesideShelfSheets_LiesBetweenTheAreaAndThePlan(int seed)
    {
        var request = ClassCases.Mixed(seed);
        var bolt = request.Stock.Bolt! with { Available = null };
        var sheets = new[] { Sheet("length", 40, 36, available: 1), Sheet("fat quarter", 21, 18, available: 2) };
        request = request with { Stock = request.Stock with { Bolt = bolt, Sheets = sheets }, Objective = CuttingObjective.LeastLength };
        var plan = Proved(request);
        Int128 Area(Length width, Length height) => (Int128)width.Ticks * height.Ticks;
        var needed = request.Pieces.Aggregate(Int128.Zero, (sum, piece) => sum + (Area(piece.Width, piece.Height) * piece.Count))
            - sheets.Aggregate(Int128.Zero, (sum, sheet) => sum + (Area(sheet.Width, sheet.Length) * sheet.Available!.Value));
        Assert.True(Area(plan.Floor, bolt.UsableWidth) >= needed, $"floor {plan.Floor} is under the area {needed}");
        Assert.True(plan.Floor <= plan.Length);
        Assert.Equal(plan.Status == PlanStatus.ProvedBest ? 0m : (decimal)(plan.Length - plan.Floor).Ticks / plan.Floor.Ticks, plan.Gap);
        Assert.True(plan.Gap < 0.08m, $"gap {plan.Gap}");
    }

    /// <summary>Coarse tables round sizes up; the floor comes from tables that round them down and stays under any plan.</summary>
    [Fact]
    public void Floor_SizesWithoutACommonMeasure_IsNotAboveThePlan()
    {
        var pieces = Enumerable.Range(1, 9).Select(number =>
            new CutPiece($"{number}", Length.FromTicks(700_001 + (number * 123_457)), Length.FromTicks(900_007 + (number * 97_561)), 5 + number));
        var plan = Proved(Cut(Bolt(42), [.. pieces]) with { Objective = CuttingObjective.LeastLength, TimeAllowance = TimeSpan.FromSeconds(10) });
        var area = plan.Strips.Count == 0 ? Int128.Zero : pieces.Aggregate(Int128.Zero, (sum, piece) => sum + ((Int128)piece.Width.Ticks * piece.Height.Ticks * piece.Count));
        Assert.True(plan.Floor <= plan.Length);
        Assert.True((Int128)plan.Length.Ticks * In(42).Ticks >= area);
        Assert.True(plan.Gap < 0.15m, $"gap {plan.Gap}");
    }

    private static Relaxation Relax(CuttingRequest request, string solver)
    {
        var model = CuttingModel.From(request);
        var tables = model.Grounds.Select(ground => GroundTables.For(model, ground)).ToArray();
        return Relaxation.Solve(model, tables, SheetCost.ByGround(model), CancellationToken.None, solver);
    }
}
