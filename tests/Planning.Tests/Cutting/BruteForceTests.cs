using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>Hundreds of tiny random cases against every plan there is.</summary>
public sealed class BruteForceTests
{
    private readonly List<string> failures = [];

    [Fact]
    public void Plan_TinyBoltCases_TakesTheLeastLengthThereIs()
    {
        for (var seed = 1; seed <= 300; seed++)
        {
            var tiny = TinyCase.From(seed);
            var request = tiny.Request(new CuttingStock(Bolt(tiny.Across, 1m), [])) with { Objective = CuttingObjective.LeastLength };
            var least = tiny.Search.LeastLengths(tiny.Across, lengthwise: false)[tiny.Search.All];
            var plan = Proved(request);

            Expect(plan.Floor <= In(least), $"Case {seed}: floor {plan.Floor}, least {least} in.");
            Expect(plan.Length == In(least), $"Case {seed}: planned {plan.Length}, least {least} in.");
            Expect(plan.Status == PlanStatus.ProvedBest, $"Case {seed}: {plan.Status}.");
        }

        Assert.Empty(failures);
    }

    [Fact]
    public void Plan_TinyBoltCases_LeastWorkCostsNoMore()
    {
        for (var seed = 301; seed <= 500; seed++)
        {
            var tiny = TinyCase.From(seed);
            var request = tiny.Request(new CuttingStock(Bolt(tiny.Across, 4m, 4m), []));
            var least = tiny.Search.LeastLengths(tiny.Across, lengthwise: false)[tiny.Search.All];
            var plan = Proved(request);
            Expect(plan.Buy.Length == In(least).RoundUpTo(In(4)), $"Case {seed}: bought {plan.Buy.Length}, least {least} in.");
            Expect(plan.Status == PlanStatus.ProvedBest, $"Case {seed}: {plan.Status}.");
        }

        Assert.Empty(failures);
    }

    [Fact]
    public void Plan_TinySheetCases_TakeTheFewestSheetsThereAre()
    {
        for (var seed = 501; seed <= 700; seed++)
        {
            var tiny = TinyCase.From(seed);
            var (width, length) = (tiny.Across, tiny.Across - 2);
            var request = tiny.Request(new CuttingStock(null, [Sheet("sheet", width, length, null, 1m)]));
            var fewest = tiny.Search.FewestSheets(width, length)[tiny.Search.All];
            var plan = Proved(request);
            Expect(plan.Sheets.Sum(recipe => recipe.Repeat) == fewest, $"Case {seed}: {plan.Sheets.Sum(recipe => recipe.Repeat)} sheets, fewest {fewest}.");
        }

        Assert.Empty(failures);
    }

    [Fact]
    public void Plan_TinyMixedStock_CostsTheLeastThereIs()
    {
        for (var seed = 701; seed <= 850; seed++)
        {
            // Two sheets at 3 each beside a bolt at 1 an inch.
            var tiny = TinyCase.From(seed);
            var (width, length) = (7, 6);
            var request = tiny.Request(new CuttingStock(Bolt(tiny.Across, 1m, price: 36), [Sheet("remnant", width, length, 2, 3m)]));
            var bolt = tiny.Search.LeastLengths(tiny.Across, lengthwise: false);
            var sheets = tiny.Search.FewestSheets(width, length);
            var least = Enumerable.Range(0, tiny.Search.All + 1).Where(set => sheets[set] <= 2)
                .Min(set => (3 * sheets[set]) + bolt[tiny.Search.All ^ set]);
            ExpectProved(request, least, seed);
        }

        Assert.Empty(failures);
    }

    /// <summary>The shop sells by four inches and not under six, sheets come in packs of two, and one lies on the shelf.</summary>
    [Fact]
    public void Plan_TinyStockWithIncrementsPacksAndAShelf_CostsTheLeastThereIs()
    {
        for (var seed = 851; seed <= 1000; seed++)
        {
            var tiny = TinyCase.From(seed);
            ExpectProved(tiny.Request(tiny.MixedStock), tiny.LeastOfMixedStock(), seed);
        }

        Assert.Empty(failures);
    }

    private void ExpectProved(CuttingRequest request, decimal least, int seed)
    {
        var plan = Proved(request);
        Expect(plan.Buy.Cost == least, $"Case {seed}: costs {plan.Buy.Cost}, least {least}.");
        Expect(plan.Status == PlanStatus.ProvedBest, $"Case {seed}: {plan.Status}.");
    }

    /// <summary>Collects, so that one run tells of every case that is not met.</summary>
    private void Expect(bool met, string failure)
    {
        if (!met)
        {
            failures.Add(failure);
        }
    }
}
