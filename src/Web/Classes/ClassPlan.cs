using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;
using KittingBee.Web.Showing;

namespace KittingBee.Web.Classes;

/// <summary>A class planned from block to kits: all that the pages, the workbook and the printed sheets show.</summary>
public sealed record ClassPlan
{
    /// <summary>The class's number.</summary>
    public required long ClassId { get; init; }

    /// <summary>Its title.</summary>
    public required string Title { get; init; }

    /// <summary>When it is held, or null where it is not yet known.</summary>
    public DateOnly? HeldOn { get; init; }

    /// <summary>Hour, as typed; may be empty.</summary>
    public string HeldTime { get; init; } = "";

    /// <summary>Where, as typed; may be empty.</summary>
    public string Place { get; init; } = "";

    /// <summary>Name of the block or pattern.</summary>
    public required string BlockName { get; init; }

    /// <summary>Units, paper and currency.</summary>
    public required ClassHabits Habits { get; init; }

    /// <summary>Seam allowance, cutting step, methods and blocks per kit.</summary>
    public required CuttingRules Rules { get; init; }

    /// <summary>The block, or null for a typed cut list.</summary>
    public Block? Block { get; init; }

    /// <summary>What the blocks of a kit are set into, or null where a kit is of blocks alone.</summary>
    public Project? Project { get; init; }

    /// <summary>Every letter with its name in the pattern: of the block, then of the project; of the cut list where it is typed.</summary>
    public IReadOnlyList<BlockFabric> Letters => Block is null
        ? [.. CutList.Fabrics.Select(fabric => new BlockFabric(fabric.Letter, fabric.Name))]
        : [.. Block.Fabrics, .. Project?.Fabrics ?? []];

    /// <summary>Blocks in a kit.</summary>
    public int BlocksPerKit => Project?.Blocks ?? Rules.BlocksPerKit;

    /// <summary>The block's width and height before it is joined to anything; nothing where the cut list is typed.</summary>
    public (Length Width, Length Height) UnfinishedBlock => Block is null
        ? (CutList.UnfinishedWidth, CutList.UnfinishedHeight)
        : (Sum(Block.Columns) + (Rules.SeamAllowance * 2), Sum(Block.Rows) + (Rules.SeamAllowance * 2));

    /// <summary>The cut list of one kit: what is sewn. What lies in a bag is in <see cref="BagOf"/>.</summary>
    public required CutList CutList { get; init; }

    /// <summary>What the bags of each colourway hold.</summary>
    public IReadOnlyDictionary<long, ColourwayBag> Bags { get; init; } = new Dictionary<long, ColourwayBag>();

    /// <summary>Colourways, in the order of the class.</summary>
    public required IReadOnlyList<PlannedColourway> Colourways { get; init; }

    /// <summary>Fabrics that the class uses, in letter order of their first use.</summary>
    public required IReadOnlyList<PlannedFabric> Fabrics { get; init; }

    /// <summary>Every kit, by number.</summary>
    public required IReadOnlyList<PlannedKit> Kits { get; init; }

    /// <summary>What is still missing or impossible: a colourway without a fabric, a piece larger than any cloth. Empty when all is planned.</summary>
    public required IReadOnlyList<Problem> Problems { get; init; }

    /// <summary>What goes into the bags of a colourway: pieces, or what its students cut them from; pieces where none is chosen yet.</summary>
    public ColourwayBag BagOf(PlannedColourway? colourway) =>
        (colourway is null ? null : Bags.GetValueOrDefault(colourway.ColourwayId)) ?? new(CutList, new Dictionary<long, HandedOut>());

    private static Length Sum(IEnumerable<Length> sides) => sides.Aggregate(Length.Zero, (sum, side) => sum + side);

    /// <summary>The fabric of a number; it must be one of the class's.</summary>
    public PlannedFabric Fabric(long fabricId) => Fabrics.Single(fabric => fabric.FabricId == fabricId);

    /// <summary>The colourway of a kit, or null where none is chosen yet.</summary>
    public PlannedColourway? ColourwayOf(PlannedKit kit) => Colourways.FirstOrDefault(colourway => colourway.ColourwayId == kit.ColourwayId);
}

/// <summary>How a class measures, prints and pays.</summary>
/// <param name="Metric">Centimetres and metres in place of inches and yards.</param>
/// <param name="PaperA4">A4 in place of Letter.</param>
/// <param name="Currency">ISO 4217 code.</param>
public sealed record ClassHabits(bool Metric, bool PaperA4, string Currency)
{
    /// <summary>How lengths are shown.</summary>
    public LengthStyle Style => Metric ? LengthStyle.Centimetres : LengthStyle.Eighths;

    /// <summary>A cut length as the class reads it.</summary>
    public string Show(Length length) => InReadersDecimals(LengthText.Write(length, Style));

    /// <summary>A length of yardage as the class reads it.</summary>
    public string ShowYardage(Length length) => InReadersDecimals(LengthText.WriteYardage(length, Metric));

    private static string InReadersDecimals(string text) => text.Replace(".", Language.Current.Culture.NumberFormat.NumberDecimalSeparator, StringComparison.Ordinal);
}

/// <summary>Which fabric each letter is in.</summary>
public sealed record PlannedColourway(long ColourwayId, string Name, IReadOnlyDictionary<string, long> FabricOfLetter);

/// <summary>One real fabric of a class: what is cut from it and how.</summary>
public sealed record PlannedFabric
{
    /// <summary>The fabric's number on the shelf.</summary>
    public required long FabricId { get; init; }

    /// <summary>Its name.</summary>
    public required string Name { get; init; }

    /// <summary>Its colour as #rrggbb.</summary>
    public required string Colour { get; init; }

    /// <summary>Letters that it is used for, in any colourway.</summary>
    public required IReadOnlyList<string> Letters { get; init; }

    /// <summary>Where to buy it, as typed; may be empty.</summary>
    public string SupplierNote { get; init; } = "";

    /// <summary>The cutting problem: cloth on the shelf and from the shop, and all the pieces of the class.</summary>
    public required CuttingRequest Request { get; init; }

    /// <summary>The checked plan, or null with <see cref="Problems"/>.</summary>
    public CuttingPlan? Plan { get; init; }

    /// <summary>Code of the kit format that it goes into the bags in.</summary>
    public string Format { get; init; } = FormatCodes.CutPieces;

    /// <summary>True where it is bought precut, so that nobody cuts it before the class.</summary>
    public bool IsBought { get; init; }

    /// <summary>True where there is something to cut before the class.</summary>
    public bool HasTicket => Plan is not null && !IsBought;

    /// <summary>Why there is no plan.</summary>
    public IReadOnlyList<Problem> Problems { get; init; } = [];
}

/// <summary>Whose kit it is.</summary>
public enum KitRole
{
    /// <summary>A student of the roster.</summary>
    Student,

    /// <summary>To be claimed.</summary>
    Open,

    /// <summary>A spare.</summary>
    Spare,

    /// <summary>The teacher's sample.</summary>
    Sample,
}

/// <summary>One kit.</summary>
/// <param name="KitId">Its row.</param>
/// <param name="Number">The number on the bag, from 1.</param>
/// <param name="Code">The short code on the bag.</param>
/// <param name="Role">Whose it is.</param>
/// <param name="Name">The student's name, or "Spare kit", "Teacher's sample", "Kit to claim".</param>
/// <param name="ColourwayId">Its colourway, or null where none is chosen yet.</param>
/// <param name="Note">The student's note; may be empty.</param>
/// <param name="LargePrint">Prints the handout in the large-print edition.</param>
/// <param name="LeftHanded">Left-handed handout.</param>
public sealed record PlannedKit(
    long KitId,
    int Number,
    string Code,
    KitRole Role,
    string Name,
    long? ColourwayId,
    string Note = "",
    bool LargePrint = false,
    bool LeftHanded = false);
