using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Formats;

/// <summary>How long the teacher's work takes. The defaults are ours, for unhurried hands; a class sets its own.</summary>
/// <param name="SecondsPerStroke">Laying the ruler and one pass of the cutter.</param>
/// <param name="SecondsPerItem">Counting one piece, precut or length into a bag.</param>
public sealed record FormatRates(decimal SecondsPerStroke = 15m, decimal SecondsPerItem = 3m);

/// <summary>One fabric of a kit, to be compared in every format.</summary>
/// <param name="Pieces">What one kit needs of the fabric.</param>
/// <param name="Kits">Kits to make; at least 1.</param>
public sealed record FormatRequest(IReadOnlyList<CutPiece> Pieces, int Kits)
{
    private static readonly Length UsualWidth = Length.FromInches(40);
    private static readonly Length EighthYard = Length.FromInches(4, 1, 2);

    /// <summary>The cloth by the length: 40 in usable, sold by the ⅛ yd, without a price, until the class says otherwise.</summary>
    public BoltStock Bolt { get; init; } = new(UsualWidth, EighthYard, EighthYard, 0m);

    /// <summary>The precuts to be had.</summary>
    public IReadOnlyList<Precut> Precuts { get; init; } = PrecutSizes.Usual(UsualWidth);

    /// <summary>Codes of the formats to compare, or null for all.</summary>
    public IReadOnlyList<string>? Formats { get; init; }

    /// <summary>True where the cloth has a direction, so that no piece may be turned.</summary>
    public bool Directional { get; init; }

    /// <summary>Layers that the teacher cuts at once.</summary>
    public int Layers { get; init; } = 4;

    /// <summary>Layers that a student cuts at once.</summary>
    public int StudentLayers { get; init; } = 1;

    /// <summary>How lengths are written in reasons.</summary>
    public LengthStyle Style { get; init; } = LengthStyle.Eighths;

    /// <summary>How long the teacher's work takes.</summary>
    public FormatRates Rates { get; init; } = new();
}

/// <summary>One format for one fabric.</summary>
public sealed record FormatOption
{
    /// <summary>Its code, from <see cref="FormatCodes"/> or the class's own precuts.</summary>
    public required string Format { get; init; }

    /// <summary>True where every piece can be had this way. Nothing below is given where it is false.</summary>
    public required bool Feasible { get; init; }

    /// <summary>Why not, naming the piece; or null.</summary>
    public string? Reason => Why?.ToString();

    /// <summary>The same, to be said in any language.</summary>
    public Sentence? Why { get; init; }

    /// <summary>Precuts in one kit, or pieces for <c>cut-pieces</c>; null for <c>yardage</c>.</summary>
    public int? PerKit { get; init; }

    /// <summary>Length in one kit, for <c>yardage</c>.</summary>
    public Length? LengthPerKit { get; init; }

    /// <summary>True where no smaller number per kit is possible; always for <c>cut-pieces</c>.</summary>
    public bool IsLeast { get; init; }

    /// <summary>Precuts or pieces for the class.</summary>
    public int? Total { get; init; }

    /// <summary>Length for the class: what is bought of the bolt, for <c>yardage</c> and <c>cut-pieces</c>.</summary>
    public Length? TotalLength { get; init; }

    /// <summary>Whole packs to buy; null where nothing comes in packs.</summary>
    public int? Packs { get; init; }

    /// <summary>Money for the class, or null where a price is not known.</summary>
    public decimal? Cost { get; init; }

    /// <summary>Share, 0 to 1, of the cloth that goes into cutting and kits but into no piece. Unopened or part packs are not waste.</summary>
    public decimal? WasteShare { get; init; }

    /// <summary>The teacher's minutes for the class: cutting and counting into bags.</summary>
    public decimal? TeacherMinutes { get; init; }

    /// <summary>Strokes of the cutter left to each student.</summary>
    public int? StudentCuts { get; init; }

    /// <summary>How one kit is cut, for the picture: strips of the bolt.</summary>
    public IReadOnlyList<Strip> Strips { get; init; } = [];

    /// <summary>How one kit is cut, for the picture: recipes of the precut.</summary>
    public IReadOnlyList<SheetRecipe> Sheets { get; init; } = [];

    /// <summary>True for the cheapest feasible format with a known price (then the quickest).</summary>
    public bool BestByCost { get; init; }

    /// <summary>True for the feasible format that takes the teacher least time (then the cheapest).</summary>
    public bool BestByTime { get; init; }
}

/// <summary>The formats side by side, or what is wrong with the request.</summary>
public sealed record FormatResult(IReadOnlyList<FormatOption> Formats, IReadOnlyList<Problem> Problems);
