using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;
using KittingBee.Planning.Settling;
using KittingBee.Web.Documents;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>What the kits of some colourways get of a fabric in one format.</summary>
/// <param name="Ways">Names of the colourways.</param>
/// <param name="Kits">Their kits.</param>
/// <param name="HandedOut">What a kit gets; null for cut pieces.</param>
/// <param name="Pieces">Pieces that a kit needs.</param>
public sealed record FormatShare(IReadOnlyList<string> Ways, int Kits, HandedOut? HandedOut, int Pieces)
{
    /// <summary>Things in one bag.</summary>
    public int PerKit => HandedOut?.Count ?? Pieces;
}

/// <summary>One format of one fabric, as the class would be planned in it.</summary>
public sealed record FormatRow
{
    public required FormatChoice Choice { get; init; }

    /// <summary>In words: "Cut pieces", "5″ squares".</summary>
    public required string Name { get; init; }

    /// <summary>Why it cannot be; null where it can.</summary>
    public string? Reason { get; init; }

    /// <summary>By colourways that need the same; empty where it cannot be.</summary>
    public IReadOnlyList<FormatShare> Shares { get; init; } = [];

    /// <summary>The plan; null where it cannot be.</summary>
    public PlannedFabric? Planned { get; init; }

    /// <summary>Pieces, precuts or lengths for the class, spare ones included.</summary>
    public long Total { get; init; }

    /// <summary>Packs to buy; 0 where it does not come in packs.</summary>
    public int Packs { get; init; }

    /// <summary>What is bought for the class; null where a pack has no price yet.</summary>
    public decimal? Cost { get; init; }

    /// <summary>Share, 0 to 1, of the cloth cut up or handed out that ends in no piece of a kit.</summary>
    public decimal Waste { get; init; }

    /// <summary>Cutting and counting into bags, for the class.</summary>
    public decimal TeacherMinutes { get; init; }

    /// <summary>Strokes left to a student; the most of any colourway.</summary>
    public int StudentCuts { get; init; }

    public bool IsChosen { get; init; }

    public bool BestByCost { get; init; }

    public bool BestByTime { get; init; }

    public bool IsFeasible => Reason is null;

    /// <summary>What has to be done before it can be chosen; null where it can be now.</summary>
    public string? Before => IsFeasible && Cost is null ? Say("Type the price of a pack below first.") : null;
}

/// <summary>All formats of one fabric side by side.</summary>
public sealed record FabricFormats(PlannedFabric Fabric, IReadOnlyList<FormatRow> Rows)
{
    public FormatRow Chosen => Rows.FirstOrDefault(row => row.IsChosen) ?? Rows[0];
}

/// <summary>A choice for every fabric.</summary>
/// <param name="Rows">One for each fabric.</param>
public sealed record FormatMix(IReadOnlyList<FormatRow> Rows)
{
    public decimal Cost => Rows.Sum(row => row.Cost ?? 0m);

    public decimal Minutes => Rows.Sum(row => row.TeacherMinutes);
}

/// <summary>Compares the formats of a class's fabrics. Fabrics do not depend on each other, so the best of each make the best mix.</summary>
public static class FormatTable
{
    private static readonly FormatRates Rates = new();

    public static IReadOnlyList<FabricFormats> Of(ClassPlanning planning, ClassMaterials materials, ClassPlan plan) =>
        [.. plan.Fabrics.Where(fabric => fabric.Request.Pieces.Count > 0).Select(fabric => new FabricFormats(fabric, Marked(Rows(planning, materials, plan, fabric))))];

    /// <summary>The mix that costs least, or that takes the teacher least time; null where some fabric has no such format.</summary>
    public static FormatMix? Best(IReadOnlyList<FabricFormats> table, Func<FormatRow, bool> best) =>
        table.Select(fabric => fabric.Rows.FirstOrDefault(best)).ToList() is var rows && rows.TrueForAll(row => row is not null) ? new([.. rows.Select(row => row!)]) : null;

    private static List<FormatRow> Rows(ClassPlanning planning, ClassMaterials materials, ClassPlan plan, PlannedFabric fabric)
    {
        var candidates = new List<(FormatChoice Choice, string Name)> { (new() { FabricId = fabric.FabricId }, Say("Cut pieces")) };
        foreach (var precut in materials.Formats.Rows)
        {
            candidates.Add((new() { FabricId = fabric.FabricId, Format = precut.Format }, Say(ClassPrecuts.NamesOf(precut, plan.Habits))));
            candidates.Add((new() { FabricId = fabric.FabricId, Format = precut.Format, Way = "bought" }, Say(ClassPrecuts.NamesOf(precut, plan.Habits))));
        }

        candidates.Add((new() { FabricId = fabric.FabricId, Format = FormatCodes.Yardage }, Say("A length each")));
        var rows = candidates.AsParallel().AsOrdered().Select(item => Row(planning, materials, plan, item.Choice, item.Name)).ToList();

        // A precut that is too small both bought and cut is one line, with one reason.
        return [.. rows.Where((row, index) => row.IsFeasible || !row.Choice.IsBought || rows[index - 1].IsFeasible)];
    }

    private static FormatRow Row(ClassPlanning planning, ClassMaterials materials, ClassPlan plan, FormatChoice choice, string name)
    {
        var unpriced = choice.IsBought && materials.PackPriceProblem(choice.Format) is not null;
        var (planned, bags, reason) = planning.PlanAs(unpriced ? WithAnyPrice(materials, choice.Format) : materials, plan, choice);
        if (reason is not null || planned?.Plan is not { } cutting)
        {
            return new() { Choice = choice, Name = name, Reason = reason is null ? Say("It cannot be planned.") : Say(reason) };
        }

        var shares = Shares(plan, bags, choice.FabricId);
        var items = planned.Request.Pieces.Sum(piece => (long)piece.Count);
        var cutMinutes = choice.IsBought ? 0m : Ticket.Of(planned).Minutes(materials.Record.SecondsPerStroke);
        var now = plan.Fabric(choice.FabricId);
        return new()
        {
            Choice = choice,
            Name = name,
            Shares = shares,
            Planned = planned,
            Total = items,
            Packs = choice.IsBought ? cutting.Sheets.Sum(sheet => sheet.Repeat) is var used ? ((used - 1) / planned.Request.Stock.Sheets[0].PackSize) + 1 : 0 : 0,
            Cost = unpriced ? null : cutting.Buy.Cost,
            Waste = Waste(materials, plan, planned),
            TeacherMinutes = cutMinutes + decimal.Round(items * Rates.SecondsPerItem / 60m, 1, MidpointRounding.AwayFromZero),
            StudentCuts = shares.Max(share => share.HandedOut?.StudentCuts ?? 0),
            IsChosen = planned.Format == now.Format && choice.IsBought == now.IsBought,
        };
    }

    private static List<FormatShare> Shares(ClassPlan plan, IReadOnlyDictionary<long, ColourwayBag> bags, long fabricId)
    {
        var kits = KitNumbers.Of(plan);
        return
        [
            .. from way in plan.Colourways
               let letters = string.Join(", ", way.FabricOfLetter.Where(pair => pair.Value == fabricId).Select(pair => pair.Key).Order(StringComparer.Ordinal))
               where letters.Length > 0 && kits.GetValueOrDefault(way.ColourwayId) > 0
               group way by letters into alike
               let first = alike.First()
               select new FormatShare(
                   [.. alike.Select(way => way.Name)],
                   alike.Sum(way => kits[way.ColourwayId]),
                   bags[first.ColourwayId].HandedOut.GetValueOrDefault(fabricId),
                   PiecesOf(plan, first, fabricId).Sum(piece => piece.Count)),
        ];
    }

    private static IReadOnlyList<CutPiece> PiecesOf(ClassPlan plan, PlannedColourway way, long fabricId) =>
        BagLists.PiecesOf(plan.CutList, way.FabricOfLetter.Where(pair => pair.Value == fabricId).Select(pair => pair.Key).ToHashSet());

    private static decimal Waste(ClassMaterials materials, ClassPlan plan, PlannedFabric planned)
    {
        var width = materials.Fabrics[planned.FabricId].UsableWidth;
        var cloth = Cloth.CutUpBy(planned.Request, planned.Plan!, width).Inches * width.Inches;
        var kits = KitNumbers.Of(plan);
        var sewn = plan.Colourways.Sum(way => kits.GetValueOrDefault(way.ColourwayId) * PiecesOf(plan, way, planned.FabricId).Sum(piece => piece.Width.Inches * piece.Height.Inches * piece.Count));
        return cloth <= 0m ? 0m : decimal.Round(Math.Max(0m, 1m - (sewn / cloth)), 4);
    }

    private static IReadOnlyList<FormatRow> Marked(IReadOnlyList<FormatRow> rows)
    {
        var cheapest = rows.Where(row => row.Cost is not null && row.IsFeasible).OrderBy(row => row.Cost).ThenBy(row => row.TeacherMinutes).FirstOrDefault();
        var quickest = rows.Where(row => row.Cost is not null && row.IsFeasible).OrderBy(row => row.TeacherMinutes).ThenBy(row => row.Cost).FirstOrDefault();
        return [.. rows.Select(row => row with { BestByCost = ReferenceEquals(row, cheapest), BestByTime = ReferenceEquals(row, quickest) })];
    }

    private static ClassMaterials WithAnyPrice(ClassMaterials materials, string format) => materials with
    {
        Formats = materials.Formats with { Rows = [.. materials.Formats.Rows.Select(row => row.Format == format ? row with { PackPrice = 1m } : row)] },
    };
}
