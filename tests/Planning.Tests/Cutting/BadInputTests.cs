using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>What cannot be planned is refused by field, value and remedy; what is merely large or odd is planned in its time.</summary>
public sealed class BadInputTests
{
    private static readonly CuttingRequest Sound = Cut(Bolt(40), Piece("square", 4.5m, 4.5m, 10));

    public static TheoryData<string, string, string> Refused => new()
    {
        { "count zero", "pieces[0].count", "0 of" },
        { "count below zero", "pieces[0].count", "-3 of" },
        { "count beyond all classes", "pieces[0].count", "20000000 of" },
        { "width zero", "pieces[0].width", "0 in" },
        { "height below zero", "pieces[0].height", "-1 in" },
        { "wider than the cloth both ways", "pieces[0].width", "41 in × 50 in" },
        { "wider than the cloth and directional", "pieces[0].width", "without being turned" },
        { "wider than the washed cloth", "pieces[0].width", "fits no cloth" },
        { "no pieces", "pieces", "no pieces" },
        { "too many lines", "pieces", "501 lines" },
        { "more pieces than can be counted", "pieces", "3000000000 pieces" },
        { "no cloth", "stock", "no cloth" },
        { "no increment", "stock.bolt.increment", "0 in" },
        { "usable width below zero", "stock.bolt.usableWidth", "-40 in" },
        { "price below zero", "stock.bolt.pricePerYard", "-1" },
        { "shrinks to nothing", "stock.shrinkageAlong", "100 %" },
        { "sheet without length", "stock.sheets[0].length", "0 in" },
        { "sheets below zero", "stock.sheets[0].available", "-1 of" },
        { "pack of none", "stock.sheets[0].packSize", "pack of 0" },
        { "no layers", "layers", "0 layers" },
        { "no ruler", "longestStrip", "0 in" },
        { "a minute to think", "timeAllowance", "60 s" },
    };

    [Theory]
    [MemberData(nameof(Refused))]
    public void Plan_ImpossibleInput_IsRefusedByFieldAndValue(string input, string field, string words)
    {
        var result = CuttingPlanner.Plan(Spoil(input));
        Assert.Null(result.Plan);
        Assert.Contains(result.Problems, problem => problem.Field == field && problem.Message.Contains(words, StringComparison.Ordinal));
    }

    [Fact]
    public void Plan_SeveralFaults_NamesThemAll()
    {
        var result = CuttingPlanner.Plan(Cut(Bolt(40), Piece("one", 0, 2, 1), Piece("two", 2, 2, 0), Piece("three", 50, 50, 1)));
        Assert.Equal(["pieces[0].width", "pieces[1].count", "pieces[2].width"], result.Problems.Select(problem => problem.Field).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Plan_MillionPieces_IsPlanned() =>
        AssertPlanned(Cut(Bolt(42), Piece("small", 2.5m, 2.5m, 900_000), Piece("bar", 2.5m, 4.5m, 100_000)));

    [Fact]
    public void Plan_FiveHundredSizes_IsPlanned() => AssertPlanned(Cut(Bolt(42), FiveHundred));

    [Fact]
    public void Plan_FiveHundredSizesWithoutACommonMeasure_IsPlanned() => AssertPlanned(Cut(Bolt(42), Odd));

    /// <summary>However early the clock ends the search, there is a plan that holds; the one that was cut short says so.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(50)]
    public void Plan_HardlyAnyTime_IsAPlanCutShort(int milliseconds)
    {
        foreach (var request in new[] { Cut(Bolt(42), FiveHundred), Cut(Bolt(42), Odd), BesideSheets })
        {
            var plan = Proved(request with { TimeAllowance = TimeSpan.FromMilliseconds(milliseconds) });
            Assert.True(plan.Floor <= plan.Length);
            Assert.True(plan.Status == PlanStatus.CutShort || milliseconds > 1, $"{plan.Status}");
        }
    }

    /// <summary>Thirty-five sheets for 1 or 2 each hold far more than the pieces, which take 270 in of a bolt at 12 a yard: 90.</summary>
    [Fact]
    public void Plan_FiveHundredSizesBesideCheapSheets_UsesTheSheets()
    {
        var plan = Proved(BesideSheets);
        Assert.True(plan.Floor <= plan.Length);
        Assert.True(plan.Buy.Cost < 30, $"costs {plan.Buy.Cost}");
    }

    [Fact]
    public void Plan_SizesWithoutACommonMeasure_IsPlanned() => AssertPlanned(Cut(
        Bolt(42),
        new CutPiece("inches", In(4.125m), In(2.875m), 37),
        new CutPiece("centimetres", Length.FromMillimetres(103), Length.FromMillimetres(61.7m), 41),
        new CutPiece("points", Length.FromMillimetres(33.333m), In(3.01m), 53),
        new CutPiece("ticks", Length.FromTicks(1_234_567), Length.FromTicks(2_345_679), 29)));

    [Fact]
    public void Plan_OnePieceOfEverythingHuge_DoesNotOverflow()
    {
        var plan = Proved(Cut(Bolt(36_000, 36), Piece("field", 35_999, 35_999, 10_000)));
        Assert.Equal(In(35_999) * 10_000, plan.Length);
    }

    /// <summary>As large as lines, counts and cloth may be: every sum must still be whole.</summary>
    [Fact]
    public void Plan_MostOfTheLongestPieces_DoesNotOverflow()
    {
        var pieces = Enumerable.Range(0, 10).Select(number => Piece($"{number}", 20_000, 35_999 - number, 10_000_000)).ToArray();
        var request = Cut(Bolt(36_000, 36_000, price: 1_000_000), pieces);
        var plan = Proved(request with { Stock = request.Stock with { ShrinkageAlong = 0.5m }, LongestStrip = In(36_000), Directional = true });
        Assert.True(plan.Length >= In(35_990) * 100_000_000);
    }

    private static CutPiece[] FiveHundred => [.. Enumerable.Range(0, 500).Select(number =>
        new CutPiece($"{number}", Length.FromInches(0, 8 + (number % 25), 8), Length.FromInches(0, 8 + (number / 25), 8), 1 + (number % 7)))];

    private static CutPiece[] Odd
    {
        get
        {
            var random = new Random(1);
            return [.. Enumerable.Range(0, 500).Select(number => new CutPiece(
                $"{number}", Length.FromTicks(random.Next(400_000, 4_000_000)), Length.FromTicks(random.Next(400_000, 4_000_000)), random.Next(1, 2_000)))];
        }
    }

    private static CuttingRequest BesideSheets => Cut(Bolt(42), FiveHundred) with
    {
        Stock = new CuttingStock(Bolt(42), [.. Enumerable.Range(0, 8).Select(number => Sheet($"sheet {number}", 18 + number, 21 + (2 * number), number, number % 3))]),
    };

    /// <summary>A search without an end would hang here; how long it takes is for the benchmarks.</summary>
    private static void AssertPlanned(CuttingRequest request)
    {
        var plan = Proved(request);
        Assert.True(plan.Floor <= plan.Length);
    }

    private static CuttingRequest Spoil(string input) => input switch
    {
        "count zero" => Cut(Bolt(40), Piece("square", 4, 4, 0)),
        "count below zero" => Cut(Bolt(40), Piece("square", 4, 4, -3)),
        "count beyond all classes" => Cut(Bolt(40), Piece("square", 4, 4, 20_000_000)),
        "width zero" => Cut(Bolt(40), Piece("square", 0, 4, 1)),
        "height below zero" => Cut(Bolt(40), Piece("square", 4, -1, 1)),
        "wider than the cloth both ways" => Cut(Bolt(40), Piece("panel", 41, 50, 1)),
        "wider than the cloth and directional" => Cut(Bolt(40), Piece("panel", 41, 20, 1)) with { Directional = true },
        "wider than the washed cloth" => Cut(Bolt(40), Piece("panel", 39, 39, 1)) with { Stock = new CuttingStock(Bolt(40), [], ShrinkageAcross: 0.06m) },
        "no pieces" => Cut(Bolt(40)),
        "too many lines" => Cut(Bolt(40), [.. Enumerable.Range(0, 501).Select(number => Piece($"{number}", 2, 2, 1))]),
        "more pieces than can be counted" => Cut(Bolt(40), [.. Enumerable.Range(0, 300).Select(number => Piece($"{number}", 2, 2, 10_000_000))]),
        "no cloth" => Cut(null, Piece("square", 4, 4, 1)),
        "no increment" => Cut(Bolt(40, increment: 0), Piece("square", 4, 4, 1)),
        "usable width below zero" => Cut(Bolt(-40), Piece("square", 4, 4, 1)),
        "price below zero" => Cut(Bolt(40, price: -1), Piece("square", 4, 4, 1)),
        "shrinks to nothing" => Sound with { Stock = Sound.Stock with { ShrinkageAlong = 1m } },
        "sheet without length" => CutSheets([Sheet("fat quarter", 21, 0)], Piece("square", 4, 4, 1)),
        "sheets below zero" => CutSheets([Sheet("fat quarter", 21, 18, -1)], Piece("square", 4, 4, 1)),
        "pack of none" => CutSheets([Sheet("fat quarter", 21, 18, null, 1m, 0)], Piece("square", 4, 4, 1)),
        "no layers" => Sound with { Layers = 0 },
        "no ruler" => Sound with { LongestStrip = Length.Zero },
        "a minute to think" => Sound with { TimeAllowance = TimeSpan.FromMinutes(1) },
        _ => throw new ArgumentOutOfRangeException(nameof(input), input, "No such input."),
    };
}
