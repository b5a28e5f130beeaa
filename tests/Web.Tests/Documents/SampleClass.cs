using KittingBee.Planning.Blocks;
using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Documents;

/// <summary>An invented class, planned by the real planner, for the papers to be made from.</summary>
internal static class SampleClass
{
    public const string Formula = "=HYPERLINK(\"http://example.invalid\",\"win\")";

    /// <summary>The money of the class.</summary>
    public static ClassRecord Record { get; } = new()
    {
        Title = "Lantern Star table mat", Currency = "USD", Notions = 1.15m, Packaging = 0.35m, LabourPerHour = 13m, PackingMinutes = 7,
        FixedCosts = 125m, Fee = 20m, TaxPercent = 6.25m, MarginPercent = 30m, MarkupPercent = 80m, PriceByHand = 9.95m, PriceStep = 0.25m,
    };

    public static ClassPlan Plan(int students = 6, bool metric = false)
    {
        var cutList = new CutList(
            Inches(12.5m),
            Inches(12.5m),
            [
                new("A", "ground", [new(Inches(4.5m), Inches(4.5m), 4, ["corners"]), new(Inches(5.25m), Inches(5.25m), 1, ["quarter-square triangles"])]),
                new("B", "star", [new(Inches(5.25m), Inches(5.25m), 2, ["quarter-square triangles"]), new(Inches(2.5m), Inches(4.5m), 6, ["rails"])]),
                new("C", "middle", [new(Inches(4.5m), Inches(4.5m), 1, ["middle"])]),
            ],
            [],
            []);
        PlannedColourway[] colourways =
        [
            new(1, "Dusk & dawn", new Dictionary<string, long> { ["A"] = 1, ["B"] = 2, ["C"] = 3 }),
            new(2, "Harvest", new Dictionary<string, long> { ["A"] = 1, ["B"] = 3, ["C"] = 2 }),
        ];
        PlannedKit[] kits =
        [
            .. Enumerable.Range(1, students).Select(number => new PlannedKit(number, number, $"K{number:000}", KitRole.Student, NameOf(number), 1 + (number % 2), number == 2 ? "no scissors, brings her own" : "", number == 3)),
            new(students + 1, students + 1, "SPARE", KitRole.Spare, "Spare", 1),
        ];
        var perColourway = colourways.Select(colourway => new ColourwayKits(colourway.Name, colourway.FabricOfLetter, kits.Count(kit => kit.ColourwayId == colourway.ColourwayId))).ToArray();
        var demand = Demand.For(cutList, perColourway, new SparePieces());
        return new ClassPlan
        {
            ClassId = 7,
            Title = "Lantern Star table mat",
            HeldOn = new DateOnly(2030, 3, 9),
            HeldTime = "10:00",
            Place = "Mill hall",
            BlockName = "Lantern Star",
            Habits = new ClassHabits(metric, PaperA4: metric, metric ? "EUR" : "USD"),
            Rules = new CuttingRules(),
            CutList = cutList,
            Colourways = colourways,
            Fabrics = [.. demand.Fabrics.Select(FabricOf)],
            Kits = kits,
            Problems = [],
        };
    }

    private static PlannedFabric FabricOf(FabricDemand demand)
    {
        var (name, colour) = demand.Fabric switch { 1 => ("Linen ground", "#f1e9dc"), 2 => ("=Indigo [deep]", "#27447a"), _ => ("Madder", "#9a3324") };
        var bolt = new BoltStock(Inches(40), Inches(4.5m), Inches(4.5m), 12m);
        var request = new CuttingRequest(new CuttingStock(bolt, []), demand.Pieces);
        var result = CuttingPlanner.Plan(request);
        return new PlannedFabric
        {
            FabricId = demand.Fabric,
            Name = name,
            Colour = colour,
            Letters = demand.Fabric switch { 1 => ["A"], 2 => ["B", "C"], _ => ["C", "B"] },
            Request = request,
            Plan = result.Plan,
            Problems = result.Problems,
        };
    }

    // The first is a formula to a careless spreadsheet; the others are letters that careless code breaks.
    private static string NameOf(int number) => number switch
    {
        1 => Formula,
        2 => "Zoë Brânză",
        3 => "さくら",
        4 => "O’Dell & Sons <b>",
        _ => $"Student {number:000}",
    };

    private static Length Inches(decimal inches) => Length.FromInches(inches);
}
