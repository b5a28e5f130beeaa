using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>Cloth that a class keeps to, with the shelf pieces that its sheets are.</summary>
public sealed record FixedCloth(CuttingStock Stock, IReadOnlyList<ShelfPiece> Pieces);

/// <summary>What a class is made of, as it is stored, read in one go.</summary>
public sealed record ClassMaterials(
    ClassRecord Record,
    IReadOnlyList<Student> Students,
    IReadOnlyList<Colourway> Colourways,
    IReadOnlyList<Kit> Kits,
    IReadOnlyDictionary<long, Fabric> Fabrics,
    IReadOnlyList<ShelfPiece> Shelf)
{
    /// <summary>
    /// The cloth that each fabric was planned from when the class was printed or bought for. From then on it stays: what
    /// is put on the shelf later, or costs more later, changes nothing about a class that is being cut.
    /// </summary>
    public IReadOnlyDictionary<long, FixedCloth> Fixed { get; init; } = new Dictionary<long, FixedCloth>();

    /// <summary>How each fabric goes into the bags, and the class's precuts.</summary>
    public ClassPrecuts Formats { get; init; } = ClassPrecuts.Usual;

    /// <summary>Units, paper and currency.</summary>
    public ClassHabits Habits => new(Record.Metric, Record.Paper == "a4", Record.Currency);

    /// <summary>Seam allowance, step and methods.</summary>
    public CuttingRules Rules => new()
    {
        SeamAllowance = Record.SeamAllowance,
        CuttingStep = Record.CuttingStep,
        Metric = Record.Metric,
        Methods = StoredJson.Read<Methods>(Record.MethodsJson),
        BlocksPerKit = Record.BlocksPerKit,
        UsableWidth = LongestAcross(),
    };

    /// <summary>Spare pieces as the class asks for them.</summary>
    public SparePieces Spares => new(Record.SparePercent, Record.MiscutPercent / 100m, Record.PromisePercent / 100m);

    /// <summary>The cloth that a fabric's shelf pieces are, in the order of the request's sheets.</summary>
    public IReadOnlyList<ShelfPiece> ShelfOf(long fabricId) => Fixed.TryGetValue(fabricId, out var kept)
        ? kept.Pieces
        : [.. Shelf.Where(piece => piece.FabricId == fabricId)];

    /// <summary>The cutting problem of one fabric: the shelf first, then the shop.</summary>
    public CuttingRequest Request(long fabricId, IReadOnlyList<CutPiece> pieces) =>
        Cutting(fabricId, pieces, Fixed.GetValueOrDefault(fabricId)?.Stock ?? StockOf(fabricId));

    /// <summary>The same with precuts for cloth: whole packs are bought, and nothing is cut. The class must have a price for them.</summary>
    public CuttingRequest RequestOfPrecuts(long fabricId, IReadOnlyList<CutPiece> pieces, string format)
    {
        var precut = Formats.Precuts(Fabrics[fabricId].UsableWidth, bought: true, Habits).First(precut => precut.Format == format);
        var price = (precut.PackPrice ?? throw new InvalidOperationException("Precuts without a price were planned.")) / precut.PackSize;
        return Cutting(fabricId, pieces, new CuttingStock(null, [new SheetStock(precut.Name, precut.Width, precut.Length, null, price, precut.PackSize)]));
    }

    /// <summary>Why precuts cannot be bought, or null where they can.</summary>
    public Sentence? PackPriceProblem(string format) => Formats.Rows.FirstOrDefault(row => row.Format == format) is { PackPrice: null } row
        ? (Sentence)$"The {ClassPrecuts.NameOf(row, Habits)} has no price yet: type one under “Precuts” on the Formats page."
        : null;

    /// <summary>What of one kit is compared in the formats: a kit's pieces of a fabric, precut as bought or cut by the teacher.</summary>
    public FormatRequest FormatRequest(long fabricId, IReadOnlyList<CutPiece> pieces, bool bought)
    {
        var fabric = Fabrics[fabricId];
        var stock = StockOf(fabricId);

        // What the teacher cuts comes from washed cloth; a bolt of the shelf is trued at its ends too.
        var width = bought ? fabric.UsableWidth : Buying.BoltWidth(stock) - stock.SquaringUp;
        return new FormatRequest(pieces, 1)
        {
            Bolt = new BoltStock(width, fabric.Increment, fabric.Increment, fabric.PricePerYard),
            Precuts = Formats.Precuts(width, bought, Habits),
            Directional = fabric.Directional,
            Layers = Record.Layers,
            Style = Habits.Style,
            Rates = new FormatRates(Record.SecondsPerStroke),
        };
    }

    private CuttingRequest Cutting(long fabricId, IReadOnlyList<CutPiece> pieces, CuttingStock stock) =>
        new(stock, pieces) { Directional = Fabrics[fabricId].Directional, Layers = Record.Layers, LongestStrip = Record.LongestStrip };

    private CuttingStock StockOf(long fabricId)
    {
        var fabric = Fabrics[fabricId];
        var bolt = new BoltStock(fabric.UsableWidth, fabric.Increment, fabric.Minimum, fabric.PricePerYard);
        var sheets = ShelfOf(fabricId)
            .Select(piece => new SheetStock(SheetName(piece), piece.Width, piece.Length, piece.Count, 0m))
            .ToList();
        return new CuttingStock(bolt, sheets, fabric.ShrinkageAlong / 100m, fabric.ShrinkageAcross / 100m, Record.SquaringUp);
    }

    /// <summary>Strips across the cloth are joined to any length, so they are cut as long as the narrowest cloth of the class allows.</summary>
    private Length LongestAcross()
    {
        var stocks = Colourways.SelectMany(way => way.FabricOfLetter.Values).Distinct().Where(Fabrics.ContainsKey)
            .Select(fabric => Fixed.GetValueOrDefault(fabric)?.Stock ?? StockOf(fabric));
        var across = stocks.Select(stock => stock.Bolt is { } bolt
            ? Length.FromTicks(decimal.ToInt64(decimal.Floor(bolt.UsableWidth.Ticks * (1m - stock.ShrinkageAcross))))
            : new CuttingRules().UsableWidth);
        var narrowest = across.Append(new CuttingRules().UsableWidth).Min();
        return Record.CuttingStep.IsPositive && narrowest > Record.CuttingStep ? narrowest.RoundDownTo(Record.CuttingStep) : narrowest;
    }

    private Sentence SheetName(ShelfPiece piece)
    {
        var size = $"{Habits.Show(piece.Width)} × {Habits.Show(piece.Length)}";
        var what = piece.Kind switch { "bolt" => (Sentence)$"Bolt {size}", "length" => $"Length {size}", _ => (Sentence)$"Remnant {size}" };
        return piece.Note.Length == 0 ? what : $"{what}, {piece.Note}";
    }
}
