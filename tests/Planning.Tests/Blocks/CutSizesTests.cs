using System.Numerics;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Blocks.Sketch;

namespace KittingBee.Planning.Tests.Blocks;

public sealed class CutSizesTests
{
    private static readonly CuttingRules Rules = new();

    // Exact + 7/8: Karen Combs, "Formulas for Quilters", 2002 (rule); 3 -> 3 7/8: Quiltmaker blog, "Quilt Blocks: Easy Math,
    // Part 4", April 2013; 2 -> 2 7/8: Granny Maud's Girl, 11 June 2018. Oversize + 1: Judy Laquidara, 5 Aug 2006 (3 -> 4).
    // Eight at a time: Craftsy, Jan 2014 (3 -> 7 3/4); "Simply Put", Apr 2013 (1 -> 3 3/4); oversize 2 -> 6: quilted-diary.com.
    // The other rows are recomputed by the same rules.
    [Theory]
    [InlineData("1", "1 7/8", "2", "3 3/4")]
    [InlineData("1 1/2", "2 3/8", "2 1/2", "4 3/4")]
    [InlineData("2", "2 7/8", "3", "5 3/4")]
    [InlineData("2 1/2", "3 3/8", "3 1/2", "6 3/4")]
    [InlineData("3", "3 7/8", "4", "7 3/4")]
    [InlineData("3 1/2", "4 3/8", "4 1/2", "8 3/4")]
    [InlineData("4", "4 7/8", "5", "9 3/4")]
    [InlineData("4 1/2", "5 3/8", "5 1/2", "10 3/4")]
    [InlineData("5", "5 7/8", "6", "11 3/4")]
    [InlineData("6", "6 7/8", "7", "13 3/4")]
    [InlineData("8", "8 7/8", "9", "17 3/4")]
    public void HalfSquareTriangle_ByEachMethod_IsAsPublished(string finished, string exact, string oversize, string eight)
    {
        Assert.Equal(In(exact), CutSizes.HalfSquare(In(finished), Rules));
        Assert.Equal(In(oversize), CutSizes.HalfSquareOversize(In(finished), Rules));
        Assert.Equal(In(eight), OneUnit(HalfSquareMethod.EightAtATime, TrimMethod.Exact, finished).Width);
        Assert.Equal(In(oversize) * 2, OneUnit(HalfSquareMethod.EightAtATime, TrimMethod.Oversize, finished).Width);
    }

    private static KitPiece OneUnit(HalfSquareMethod method, TrimMethod trim, string finished)
    {
        var rules = new CuttingRules { Methods = new() { HalfSquareTriangle = method, Trim = trim } };
        return CutList(Of("One", Sides(finished), Sides(finished), "AB", Half(0, 0, "AB")), rules).Fabrics[0].Pieces[0];
    }

    // Exact + 1 1/4: Karen Combs, 2002; 4 -> 5 1/4: Bonnie Hunter, "Cutting Quarter-Square Triangles", June 2005.
    // Oversize + 1 1/2: Alamosa Quilter, 30 Oct 2014 (2 -> 3 1/2). The other rows are recomputed by the same rules.
    [Theory]
    [InlineData("1", "2 1/4", "2 1/2")]
    [InlineData("1 1/2", "2 3/4", "3")]
    [InlineData("2", "3 1/4", "3 1/2")]
    [InlineData("2 1/2", "3 3/4", "4")]
    [InlineData("3", "4 1/4", "4 1/2")]
    [InlineData("3 1/2", "4 3/4", "5")]
    [InlineData("4", "5 1/4", "5 1/2")]
    [InlineData("4 1/2", "5 3/4", "6")]
    [InlineData("5", "6 1/4", "6 1/2")]
    [InlineData("6", "7 1/4", "7 1/2")]
    [InlineData("8", "9 1/4", "9 1/2")]
    public void QuarterSquareTriangle_ByEachMethod_IsAsPublished(string finished, string exact, string oversize)
    {
        Assert.Equal(In(exact), CutSizes.QuarterSquare(In(finished), Rules));
        Assert.Equal(In(oversize), CutSizes.QuarterSquareOversize(In(finished), Rules));
    }

    // Four at a time: Beverly's Quilting Page, members.shaw.ca/beverlysquiltingpage/ffg.htm; 4 x 2 also Quilter's World, June 2024.
    [Theory]
    [InlineData("8", "4", "9 1/4", "4 7/8")]
    [InlineData("7", "3 1/2", "8 1/4", "4 3/8")]
    [InlineData("6", "3", "7 1/4", "3 7/8")]
    [InlineData("5", "2 1/2", "6 1/4", "3 3/8")]
    [InlineData("4", "2", "5 1/4", "2 7/8")]
    [InlineData("3", "1 1/2", "4 1/4", "2 3/8")]
    [InlineData("2", "1", "3 1/4", "1 7/8")]
    public void FlyingGeese_FourAtATime_AreAsPublished(string width, string height, string large, string small)
    {
        var rules = new CuttingRules { Methods = new() { FlyingGeese = GeeseMethod.FourAtATime } };
        var list = CutList(Of("Goose", Sides(width), Sides(height), "AB", Made(0, 0, UnitKind.FlyingGeese, 0, "ABB")), rules);
        Assert.Equal($"A: 1 @ {large} x {large}; B: 4 @ {small} x {small}", InShort(list));
        Assert.Equal(3, list.Units[0].LeftOver);
    }

    // One at a time: stoffart-design.com (10 1/2 x 5 1/2 and two 5 1/2); Marcia Hohn, quilterscache.com (4 1/2 x 2 1/2, two 2 1/2).
    [Theory]
    [InlineData("10", "5", "10 1/2", "5 1/2")]
    [InlineData("4", "2", "4 1/2", "2 1/2")]
    public void FlyingGeese_StitchAndFlip_AreAsPublished(string width, string height, string long_, string side)
    {
        var list = CutList(Of("Goose", Sides(width), Sides(height), "AB", Made(0, 0, UnitKind.FlyingGeese, 0, "ABB")));
        Assert.Equal($"A: 1 @ {long_} x {side}; B: 2 @ {side} x {side}", InShort(list));
    }

    // Base and four corner squares, 2 to 12 in: scissortailquilting.com/quilt-block-library/square-in-a-square/.
    [Theory]
    [InlineData("2", "2 1/2", "1 1/2")]
    [InlineData("3", "3 1/2", "2")]
    [InlineData("4", "4 1/2", "2 1/2")]
    [InlineData("5", "5 1/2", "3")]
    [InlineData("6", "6 1/2", "3 1/2")]
    [InlineData("7", "7 1/2", "4")]
    [InlineData("8", "8 1/2", "4 1/2")]
    [InlineData("9", "9 1/2", "5")]
    [InlineData("10", "10 1/2", "5 1/2")]
    [InlineData("11", "11 1/2", "6")]
    [InlineData("12", "12 1/2", "6 1/2")]
    public void SquareInASquare_Flipped_IsAsPublished(string finished, string middle, string corner)
    {
        var list = CutList(Of("Square", Sides(finished), Sides(finished), "AB", Made(0, 0, UnitKind.SquareInASquare, 0, "AB")));
        Assert.Equal($"A: 1 @ {middle} x {middle}; B: 4 @ {corner} x {corner}", InShort(list));
    }

    // Recomputed from geometry: centre F/√2 + 1/2, corners F/2 + 7/8 cut once, up to 1/8. The 8 in row's corner agrees with
    // Marcia Hohn, quilterscache.com, July 2000 (finished centre 5.66; 4 in halves + 7/8).
    [Theory]
    [InlineData("2", "2", "1 7/8")]
    [InlineData("3", "2 5/8", "2 3/8")]
    [InlineData("4", "3 3/8", "2 7/8")]
    [InlineData("5", "4 1/8", "3 3/8")]
    [InlineData("6", "4 3/4", "3 7/8")]
    [InlineData("8", "6 1/4", "4 7/8")]
    [InlineData("9", "6 7/8", "5 3/8")]
    [InlineData("10", "7 5/8", "5 7/8")]
    [InlineData("12", "9", "6 7/8")]
    public void SquareInASquare_ByTriangles_FollowsGeometry(string finished, string middle, string corner)
    {
        var list = CutList(Of("Square", Sides(finished), Sides(finished), "AB", Made(0, 0, UnitKind.SquareInASquare, 0, "AB")), CutTriangles);
        Assert.Equal($"A: 1 @ {middle} x {middle}; B: 2 @ {corner} x {corner}", InShort(list));
    }

    // All 24 values: "chart for on-point settings", lukas.is-a-geek.org/tani/chart.htm.
    [Theory]
    [InlineData(5, "8 3/8", "4 1/2")]
    [InlineData(6, "9 3/4", "5 1/8")]
    [InlineData(7, "11 1/4", "5 7/8")]
    [InlineData(8, "12 5/8", "6 5/8")]
    [InlineData(9, "14", "7 1/4")]
    [InlineData(10, "15 1/2", "8")]
    [InlineData(11, "16 7/8", "8 3/4")]
    [InlineData(12, "18 1/4", "9 3/8")]
    [InlineData(13, "19 3/4", "10 1/8")]
    [InlineData(14, "21 1/8", "10 7/8")]
    [InlineData(15, "22 1/2", "11 1/2")]
    [InlineData(16, "23 7/8", "12 1/4")]
    public void SettingTriangles_OfEveryPublishedBlock_AreAsPublished(int block, string side, string corner)
    {
        Assert.Equal(In(side), CutSizes.SideSetting(Length.FromInches(block), Rules));
        Assert.Equal(In(corner), CutSizes.CornerSetting(Length.FromInches(block), Rules));
    }

    [Fact]
    public void Roots_OfAnyLength_AreTheLeastTicksThatAreEnough()
    {
        var random = new Random(3);
        for (var round = 0; round < 10_000; round++)
        {
            var ticks = random.NextInt64(1, Length.FromInches(300).Ticks);
            var up = CutSizes.TimesRootTwo(Length.FromTicks(ticks)).Ticks;
            var square = 2 * BigInteger.Pow(ticks, 2);
            Assert.True(BigInteger.Pow(up, 2) >= square && BigInteger.Pow(up - 1, 2) < square);
            var down = CutSizes.DividedByRootTwo(Length.FromTicks(ticks)).Ticks;
            Assert.True(2 * BigInteger.Pow(down, 2) >= BigInteger.Pow(ticks, 2) && 2 * BigInteger.Pow(down - 1, 2) < BigInteger.Pow(ticks, 2));
        }
    }

    // Geometry by another road: in decimals, with √2 to 28 places.
    [Fact]
    public void CutSizes_OfAnyRules_AreNeverSmallerThanGeometryAndLessThanTwoStepsLarger()
    {
        const decimal RootTwo = 1.4142135623730950488016887242m;
        var random = new Random(4);
        Length[] seams = [In("1/4"), Length.FromMillimetres(6), Length.FromMillimetres(7.5m), In("3/8"), In("1/2")];
        Length[] steps = [In("1/8"), In("1/16"), Length.FromMillimetres(1)];
        for (var round = 0; round < 10_000; round++)
        {
            var rules = new CuttingRules { SeamAllowance = seams[random.Next(seams.Length)], CuttingStep = steps[random.Next(steps.Length)], Metric = random.Next(2) == 0 };
            var finished = Length.FromTicks(random.NextInt64(Length.TicksPerInch / 2, Length.TicksPerInch * 30));
            var (f, s) = (finished.Inches, rules.SeamAllowance.Inches);
            Check(CutSizes.Patch(finished, rules), f + (2 * s), 1);
            Check(CutSizes.HalfSquare(finished, rules), f + (s * (2 + RootTwo)), 2);
            Check(CutSizes.QuarterSquare(finished, rules), f + (2 * s * (1 + RootTwo)), 2);
            Check(CutSizes.OnPointCentre(finished, rules), (f / RootTwo) + (2 * s), 1);
            Check(CutSizes.SideSetting(finished, rules), (f * RootTwo) + (2 * s * (1 + RootTwo)), 2);
            Check(CutSizes.CornerSetting(finished, rules), (f / RootTwo) + (s * (2 + RootTwo)), 2);
            Assert.True(CutSizes.HalfSquareOversize(finished, rules) >= CutSizes.HalfSquare(finished, rules));
            Assert.True(CutSizes.QuarterSquareOversize(finished, rules) >= CutSizes.QuarterSquare(finished, rules));

            void Check(Length cut, decimal exact, int mostSteps)
            {
                Assert.True(cut.IsMultipleOf(rules.CuttingStep));

                // An excess under 1/256 in counts as on the step.
                Assert.True(cut.Inches > exact - (1m / 256), $"{cut} for {exact}");
                Assert.True(cut.Inches < exact + (mostSteps * rules.CuttingStep.Inches) + 0.00001m, $"{cut} for {exact}");
            }
        }
    }
}
