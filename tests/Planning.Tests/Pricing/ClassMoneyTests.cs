using CsCheck;
using KittingBee.Planning.Pricing;

namespace KittingBee.Planning.Tests.Pricing;

public sealed class ClassMoneyTests
{
    // 1000 ÷ (110 − 10) = 10 students: hrdiscussion.com hr25232.
    [Fact]
    public void Students_FixedThousand_IsThePublishedTen()
    {
        Assert.Equal(10, BreakEven.Students(1000, 110, 10));
        var money = new ClassMoney([new(CostKind.Venue, "fixed", 1000, CostBasis.PerClass), new(CostKind.Notions, "each", 10, CostBasis.PerStudent)], 110);
        Assert.Equal(new BreakEven(10, 10), BreakEven.Of(EnrolmentCurve.Points(money, 1, 30, _ => 0)));
    }

    // Fixed 175 + 75 + 2000 + 906 + 227, each 15 + 12 + 3.50, 30 students: $143.27. studymode.com essay 1307725, 2012 (weak source; the sum was checked).
    [Fact]
    public void Fee_ThirtyStudents_IsThePublishedFee() => Assert.Equal(143.27m, BreakEven.Fee(175 + 75 + 2000 + 906 + 227, 15 + 12 + 3.50m, 30));

    // Day fee 750 in 2014 and 20 for each student above 20; worked here for 23 students: 810, 35.22 each. Terms: suespargo.blogspot.com/p/teaching-arrangements.html.
    [Fact]
    public void CostWithoutFabric_TeacherWithExtraAboveTwenty_CountsOnlyThose()
    {
        var money = new ClassMoney([new(CostKind.Teacher, "day", 750, CostBasis.PerClass), new(CostKind.Teacher, "above 20", 20, CostBasis.PerStudent, 20)], 40);
        Assert.Equal([750m, 810m], [money.CostWithoutFabric(20), money.CostWithoutFabric(23)]);
        Assert.Equal(35.22m, EnrolmentCurve.At(money, 23, 0).CostPerStudent);
    }

    [Theory]
    [InlineData(0, 5, 5, 0)]
    [InlineData(0, 4, 5, null)]
    [InlineData(1, 5, 5, null)]
    [InlineData(100.01, 20, 10, 11)]
    public void Students_AtTheEdges_IsWholeOrNone(decimal fixedCosts, decimal fee, decimal each, int? students) =>
        Assert.Equal(students, BreakEven.Students(fixedCosts, fee, each));

    [Fact]
    public void Points_FabricBoughtInSteps_CanBringALossBack()
    {
        // Fabric in steps of 50 for every four kits, spare included: 3 students pay 60, then a fourth opens a new step.
        var money = new ClassMoney([], 20, ExtraKits: 1);
        var points = EnrolmentCurve.Points(money, 1, 9, students => decimal.Ceiling((students + 1) / 4m) * 50m).ToList();
        Assert.Equal([-30m, -10m, 10m, -20m, 0m, 20m, 40m, 10m, 30m], points.Select(point => point.Profit));
        Assert.Equal(new BreakEven(3, 5), BreakEven.Of(points));
    }

    [Fact]
    public void NextStudent_WhereAStepOpens_CostsTheWholeStep()
    {
        var money = new ClassMoney([new(CostKind.PackagingAndPrinting, "bag", 0.50m, CostBasis.PerKit)], 20, ExtraKits: 1);
        decimal Fabric(int students) => decimal.Ceiling((students + 1) / 4m) * 50m;
        Assert.Equal((0m, 0.50m, 19.50m), EnrolmentCurve.NextStudent(money, 2, Fabric));
        Assert.Equal((50m, 50.50m, -30.50m), EnrolmentCurve.NextStudent(money, 3, Fabric));
    }

    [Fact]
    public void Points_AreWorkedOutOnlyWhenAskedFor()
    {
        var plans = 0;
        using var points = EnrolmentCurve.Points(new([], 10), 1, 1000, _ => ++plans).GetEnumerator();
        points.MoveNext();
        points.MoveNext();
        Assert.Equal(2, plans);
    }

    [Fact]
    public void Of_NeverWithoutLoss_SaysSo() => Assert.Equal(new BreakEven(null, null), BreakEven.Of(EnrolmentCurve.Points(new([], 1), 1, 20, _ => 100)));

    [Fact]
    public void Fee_AnyClass_CoversItAndACentLessDoesNot() =>
        Gen.Select(Gen.Int[0, 1_000_000], Gen.Int[0, 10_000], Gen.Int[1, 60]).Sample(
            (fixedCents, eachCents, students) =>
            {
                var fee = BreakEven.Fee(fixedCents / 100m, eachCents / 100m, students);
                var cost = (fixedCents / 100m) + (eachCents / 100m * students);
                return fee * students >= cost && (fee - 0.01m) * students < cost;
            },
            iter: 10_000);

    [Fact]
    public void Problems_FiguresBelowZero_AreNamed() => Assert.Equal(
        ["feePerStudent", "kitPricePerStudent", "extraKits", "lines[0].amount"],
        new ClassMoney([new(CostKind.Venue, "room", -1, CostBasis.PerClass)], -1, -1, -1).Problems().Select(problem => problem.Field));
}
