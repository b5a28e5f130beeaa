using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>A valid plan, written by hand, is broken in one way after the other: each must be seen.</summary>
public sealed class PlanCheckerTests
{
    // One bolt strip 6½ in high, cut twice: three 6½ in squares, a column of two 3 × 2½ (one narrower piece, 2½ × 2, trimmed, on top) and
    // a turned 4 × 5; and one fat quarter cut lengthwise first with a strip of two 6½ in squares.
    private static readonly CuttingRequest Request = new(
        new CuttingStock(Bolt(40, 4.5m, 9m, 12m), [Sheet("fat quarter", 21, 18, 2, 3.5m, 1)]),
        [
            Piece("square", 6.5m, 6.5m, 8),
            Piece("bar", 3, 2.5m, 4),
            Piece("chip", 2.5m, 1.5m, 2, mayTurn: false),
            Piece("tall", 4, 5, 2),
        ]);

    private static readonly CuttingPlan Valid = new()
    {
        Length = In(13),
        Floor = In(10),
        Buy = new Purchase(In(13.5m), 12m * 13.5m / 36m + 3.5m),
        OneSizePerStrip = new Purchase(In(27), 9m),
        Strips =
        [
            new Strip(In(6.5m), 2,
            [
                new Column(In(6.5m), 3, [new StackedPiece(0, In(6.5m), In(6.5m), false, 1)]),
                new Column(In(3), 1, [new StackedPiece(1, In(3), In(2.5m), false, 2), new StackedPiece(2, In(2.5m), In(1.5m), false, 1)]),
                new Column(In(5), 1, [new StackedPiece(3, In(5), In(4), true, 1)]),
            ]),
        ],
        Sheets =
        [
            new SheetRecipe(0, "fat quarter", 1, true,
            [
                new Strip(In(6.5m), 1, [new Column(In(6.5m), 2, [new StackedPiece(0, In(6.5m), In(6.5m), false, 1)])]),
            ]),
        ],
        Surplus = [],

        // By the rules at Strokes, four layers: two strips, 2. Squares: a folded pair 1 and an odd one 1, full height. Bars: column 1; three
        // pieces fill 6½ in, so 2 cross-cuts; chips trimmed 1. Tall: column 1, cross-cut 1. Sheet: strip 1, two columns 2. In all 13.
        Strokes = 13,
        Status = PlanStatus.Good,
        Gap = 0.3m,
    };

    [Fact]
    public void Check_ValidPlan_FindsNothing() => Assert.Empty(PlanChecker.Check(Request, Valid));

    [Fact]
    public void Strokes_OfTheHandMadePlan_AreThoseCountedByHand() =>
        Assert.Equal(13, Strokes.Count(Request, Valid.Strips, Valid.Sheets));

    public static TheoryData<string, string> BrokenPlans => new()
    {
        { "strip too wide", "across" },
        { "stack too high", "in a height of" },
        { "piece wider than its column", "in a column of" },
        { "piece cut too small", "and it is" },
        { "piece said to be turned", "and it is" },
        { "piece turned against its direction", "keep its direction" },
        { "one piece short", "are needed and" },
        { "surplus hidden", "more than needed" },
        { "surplus invented", "more than needed" },
        { "length understated", "the plan says 12 in" },
        { "floor above the plan", "above the plan's length" },
        { "floor below zero", "below zero" },
        { "too little bought", "is to be bought" },
        { "cost understated", "costs" },
        { "strokes understated", "strokes" },
        { "sheet too short", "of a sheet that has" },
        { "strip across a sheet too wide", "across" },
        { "more sheets than there are", "and there are 2" },
        { "no such sheet", "no such sheet" },
        { "sheet misnamed", "calls" },
        { "no such piece", "no such piece" },
        { "strip repeated no times", "repeated 0 times" },
        { "column repeated no times", "repeated 0 times" },
        { "sheet repeated no times", "repeated 0 times" },
        { "empty column", "empty" },
        { "empty sheet", "no strips" },
        { "strip taller than the ruler", "longest ruler" },
    };

    [Theory]
    [MemberData(nameof(BrokenPlans))]
    public void Check_BrokenPlan_SaysHow(string breakage, string words)
    {
        var faults = PlanChecker.Check(Request, Break(breakage));
        Assert.Contains(faults, fault => fault.Contains(words, StringComparison.Ordinal));
    }

    [Fact]
    public void Check_DirectionalCloth_RefusesEveryTurnedPiece() =>
        Assert.Contains(PlanChecker.Check(Request with { Directional = true }, Valid), fault => fault.Contains("“tall”", StringComparison.Ordinal));

    [Fact]
    public void Check_PlanLongerThanTheCloth_SaysHowMuchThereIs()
    {
        var request = Request with { Stock = Request.Stock with { Bolt = Bolt(40, 4.5m, 9m, 12m, 9m) } };
        Assert.Contains(PlanChecker.Check(request, Valid), fault => fault.Contains("9 in is to be had", StringComparison.Ordinal));
    }

    [Fact]
    public void Check_StripsWithoutABolt_AreRefused()
    {
        var request = Request with { Stock = Request.Stock with { Bolt = null } };
        Assert.Contains(PlanChecker.Check(request, Valid), fault => fault.Contains("no bolt", StringComparison.Ordinal));
    }

    [Fact]
    public void Check_ShrinkingCloth_NeedsMoreThanTheStripsTake()
    {
        // Half an inch trued off, then 10 %: (13 + ½) ÷ 0.9 = 15 in, so 18 in of ⅛-yd steps; and the same width no longer fits.
        var request = Request with { Stock = Request.Stock with { ShrinkageAlong = 0.1m, SquaringUp = In(0.5m) } };
        Assert.Contains(PlanChecker.Check(request, Valid), fault => fault.Contains("18 in is to be bought", StringComparison.Ordinal));
        Assert.Equal(In(18), Buying.BoltLength(request.Stock, In(13)));
    }

    [Theory]
    [InlineData(true, true)] // 5 × 30 in could lie on its side, and no strip need be 30 in high
    [InlineData(false, false)]
    public void Check_StripTallerThanTheRuler_OnlyForAPieceThatHasToStand(bool mayTurn, bool refused)
    {
        var request = Cut(Bolt(40, 30), Piece("border", 5, 30, 1, mayTurn));
        var length = In(30);
        var plan = Valid with
        {
            Length = length,
            Floor = length,
            Buy = new Purchase(length, 10m),
            Strips = [new Strip(length, 1, [new Column(In(5), 1, [new StackedPiece(0, In(5), length, false, 1)])])],
            Sheets = [],
            Strokes = 2,
        };
        Assert.Equal(refused, PlanChecker.Check(request, plan).Any(fault => fault.Contains("longest ruler", StringComparison.Ordinal)));
        Assert.Equal(refused ? 1 : 0, PlanChecker.Check(request, plan).Count);
    }

    private static CuttingPlan Break(string breakage) => breakage switch
    {
        "strip too wide" => WithColumn(0, column => column with { Repeat = 5 }),
        "stack too high" => WithPiece(1, 0, piece => piece with { Count = 3 }),
        "piece wider than its column" => WithColumn(2, column => column with { Width = In(4.875m) }),
        "piece cut too small" => WithPiece(0, 0, piece => piece with { Width = In(6.375m) }),
        "piece said to be turned" => WithPiece(2, 0, piece => piece with { Turned = false }),
        "piece turned against its direction" => WithPiece(1, 1, piece => piece with { Width = In(1.5m), Height = In(2.5m), Turned = true }),
        "one piece short" => WithStrip(strip => strip with { Repeat = 1 }),
        "surplus hidden" => WithColumn(0, column => column with { Repeat = 4 }),
        "surplus invented" => Valid with { Surplus = [new Surplus(0, 1)] },
        "length understated" => Valid with { Length = In(12) },
        "floor above the plan" => Valid with { Floor = In(13.125m) },
        "floor below zero" => Valid with { Floor = In(-1) },
        "too little bought" => Valid with { Buy = Valid.Buy with { Length = In(9) } },
        "cost understated" => Valid with { Buy = Valid.Buy with { Cost = 7.99m } },
        "strokes understated" => Valid with { Strokes = 12 },
        "sheet too short" => WithSheet(sheet => sheet with { Strips = [sheet.Strips[0] with { Repeat = 4 }] }),
        "strip across a sheet too wide" => WithSheet(sheet => sheet with { Strips = [sheet.Strips[0] with { Columns = [sheet.Strips[0].Columns[0] with { Repeat = 3 }] }] }),
        "more sheets than there are" => WithSheet(sheet => sheet with { Repeat = 3 }),
        "no such sheet" => WithSheet(sheet => sheet with { Sheet = 1 }),
        "sheet misnamed" => WithSheet(sheet => sheet with { Name = "fat eighth" }),
        "no such piece" => WithPiece(0, 0, piece => piece with { Piece = 4 }),
        "strip repeated no times" => WithStrip(strip => strip with { Repeat = 0 }),
        "column repeated no times" => WithColumn(0, column => column with { Repeat = 0 }),
        "sheet repeated no times" => WithSheet(sheet => sheet with { Repeat = 0 }),
        "empty column" => WithColumn(0, column => column with { Pieces = [] }),
        "empty sheet" => WithSheet(sheet => sheet with { Strips = [] }),
        "strip taller than the ruler" => WithStrip(strip => strip with { Height = In(24.125m) }),
        _ => throw new ArgumentOutOfRangeException(nameof(breakage), breakage, "No such breakage."),
    };

    private static CuttingPlan WithStrip(Func<Strip, Strip> change) => Valid with { Strips = [change(Valid.Strips[0])] };

    private static CuttingPlan WithSheet(Func<SheetRecipe, SheetRecipe> change) => Valid with { Sheets = [change(Valid.Sheets[0])] };

    private static CuttingPlan WithColumn(int index, Func<Column, Column> change) =>
        WithStrip(strip => strip with { Columns = [.. strip.Columns.Select((column, place) => place == index ? change(column) : column)] });

    private static CuttingPlan WithPiece(int column, int piece, Func<StackedPiece, StackedPiece> change) =>
        WithColumn(column, old => old with { Pieces = [.. old.Pieces.Select((one, place) => place == piece ? change(one) : one)] });
}
