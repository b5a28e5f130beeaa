using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Classes;

/// <summary>What a fabric costs at each number of students is what a plan for that number costs, though most numbers are not planned.</summary>
public sealed class FabricStepsTests(SampleClassHost host) : IClassFixture<SampleClassHost>
{
    private const int Most = 14;

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    [InlineData(4)]
    public void Costs_OfARandomClassBesideRemnants_AreThoseOfEachNumbersOwnPlan(int seed)
    {
        var random = new Random(seed);
        var kit = Enumerable.Range(1, random.Next(1, 4))
            .Select(size => new CutPiece($"size {size}", Length.FromInches(0, random.Next(3, 17), 2), Length.FromInches(0, random.Next(3, 17), 2), random.Next(1, 5)))
            .ToList();
        var stock = new CuttingStock(
            new BoltStock(Length.FromInches(random.Next(40, 45)), Length.FromInches(4, 1, 2), Length.FromInches(9), 11.5m),
            [.. Enumerable.Range(0, seed % 3).Select(number => new SheetStock($"remnant {number}", Length.FromInches(random.Next(9, 40)), Length.FromInches(random.Next(9, 24)), 1 + number, 0m))]);
        var requests = Enumerable.Range(1, Most)
            .Select(students => new FabricRequest(1, new CuttingRequest(stock, [.. kit.Select(piece => piece with { Count = piece.Count * students })]) { TimeAllowance = TimeSpan.FromSeconds(5) }, []))
            .ToList();

        var steps = new FabricSteps(new PlanBook(host.Guild.Get<PlanStore>()), requests);
        steps.Plan(random.Next(Most), () => true);

        for (var students = 1; students <= Most; students++)
        {
            var own = CuttingPlanner.Plan(requests[students - 1].Request).Plan!;
            Assert.True(
                own.Status == PlanStatus.ProvedBest ? steps.Costs[students - 1] == own.Buy.Cost : steps.Costs[students - 1] <= own.Buy.Cost,
                $"{students} students cost {steps.Costs[students - 1]} by the curve, {own.Buy.Cost} by their own plan ({own.Status}).");
        }
    }
}
