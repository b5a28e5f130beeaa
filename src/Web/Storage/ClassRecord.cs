using KittingBee.Planning.Measures;

namespace KittingBee.Web.Storage;

/// <summary>A class as it is stored. Percentages are percent (5 means 5 %).</summary>
public sealed record ClassRecord
{
    public long Id { get; init; }

    public string Title { get; init; } = "";

    public DateOnly? HeldOn { get; init; }

    public string HeldTime { get; init; } = "";

    public string Place { get; init; } = "";

    public long? BlockId { get; init; }

    public string BlockName { get; init; } = "";

    /// <summary>The class's own copy of the block; null for a typed cut list.</summary>
    public string? BlockJson { get; init; }

    public string? TypedLines { get; init; }

    /// <summary>The class's own copy of the project that its blocks are set into; null where the kit is of blocks alone.</summary>
    public string? ProjectJson { get; init; }

    public string Units { get; init; } = "inches";

    public string Paper { get; init; } = "letter";

    public string Currency { get; init; } = "USD";

    public Length SeamAllowance { get; init; } = Length.FromInches(0, 1, 4);

    public Length CuttingStep { get; init; } = Length.FromInches(0, 1, 8);

    public string MethodsJson { get; init; } = "{}";

    public int BlocksPerKit { get; init; } = 1;

    public int Layers { get; init; } = 4;

    public Length LongestStrip { get; init; } = Length.FromInches(24);

    public Length SquaringUp { get; init; }

    /// <summary>Most students the class takes, or null.</summary>
    public int? Places { get; init; }

    /// <summary>A class without a roster makes this many kits; null where there is a roster.</summary>
    public int? KitsOnly { get; init; }

    public int SpareKits { get; init; }

    public int SampleKits { get; init; }

    public decimal SparePercent { get; init; }

    public decimal? MiscutPercent { get; init; }

    public decimal PromisePercent { get; init; } = 95m;

    public decimal Notions { get; init; }

    public decimal Packaging { get; init; }

    public decimal LabourPerHour { get; init; }

    public int SecondsPerStroke { get; init; } = 20;

    public int PackingMinutes { get; init; } = 5;

    public decimal FixedCosts { get; init; }

    public decimal Fee { get; init; }

    public decimal TaxPercent { get; init; }

    /// <summary><c>margin</c>, <c>markup</c> or <c>by-hand</c>.</summary>
    public string Pricing { get; init; } = "margin";

    public decimal MarginPercent { get; init; } = 30m;

    public decimal MarkupPercent { get; init; } = 50m;

    public decimal PriceByHand { get; init; }

    public decimal PriceStep { get; init; } = 0.5m;

    public decimal TolerancePercent { get; init; } = 5m;

    /// <summary><c>open</c> or <c>closed</c>.</summary>
    public string Status { get; init; } = "open";

    public string? PrintedAt { get; init; }

    public string? ClosedAt { get; init; }

    public string? FrozenJson { get; init; }

    public string? DeletedAt { get; init; }

    public long Version { get; init; }

    public bool Metric => Units == "centimetres";

    public bool IsClosed => Status == "closed";
}
