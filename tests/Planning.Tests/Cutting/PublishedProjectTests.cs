using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>Printed projects: the planner needs no more cloth than the pattern asks for, and no more than the handbooks' count of strips.</summary>
public sealed class PublishedProjectTests
{
    // Sharon Stroud, Shoo Fly, 20 blocks of 9 in, 17 Feb 2012, sharonstroud.blogspot.com/2012/02. Printed: background 1½ yd for 40 squares of 3⅞ and 80 of
    // 3½. By strips, worked out: 40 in of length at 42 in usable, 43½ in at 40 in.
    [Theory]
    [InlineData(42, 40)]
    [InlineData(40, 43.5)]
    public void Plan_ShooFlyBackground_MeetsThePrintedYardage(double width, double byStrips)
    {
        var request = Cut(Bolt((decimal)width), Piece("square for triangles", 3.875m, 3.875m, 40), Piece("corner", 3.5m, 3.5m, 80));
        var plan = Proved(request);
        Assert.Equal(In((decimal)byStrips), OneSizePerStrip.LengthOf(OneSizePerStrip.Strips(request)!));
        Assert.True(plan.Length <= In((decimal)byStrips));
        Assert.True(plan.Buy.Length <= Length.FromYards(1.5m));
    }

    // The same quilt's design fabric: 1 yd for 40 squares of 3⅞, 20 of 3½ and the cornerstones; 4 × 5 blocks with sashing outside have 30 cornerstones
    // and 49 sashes (susanintexas.blogspot.com/2009/02/quilt-math-algorithms-for-cornerstones.html). Sashing printed 1½ yd, 2½ in finished.
    [Fact]
    public void Plan_ShooFlyDesignAndSashing_MeetThePrintedYardage()
    {
        var design = Proved(Cut(Bolt(42), Piece("square for triangles", 3.875m, 3.875m, 40), Piece("centre", 3.5m, 3.5m, 20), Piece("cornerstone", 3, 3, 30)));
        Assert.True(design.Buy.Length <= Length.FromYards(1));

        var sashing = Proved(Cut(Bolt(42), Piece("sash", 9.5m, 3, 49)));
        Assert.True(sashing.Buy.Length <= Length.FromYards(1.5m));
    }

    // modernquiltingbyb.com/2015/02, Windmill, 35 blocks of 8 in: 2½ in strips sub-cut 4½, nine from 42 in, 140 patches of each of two colours, 16 strips.
    [Fact]
    public void Plan_Windmill_TakesNoMoreThanThePrintedSixteenStrips()
    {
        var request = Cut(Bolt(42), Piece("blade", 4.5m, 2.5m, 140, mayTurn: false));
        Assert.Equal(16, OneSizePerStrip.Strips(request)!.Sum(strip => strip.Repeat));
        Assert.Equal(In(40), Proved(request).Length);
        Assert.True(Proved(Cut(Bolt(42), Piece("blade", 4.5m, 2.5m, 140)) with { Objective = CuttingObjective.LeastLength }).Length <= In(40));
    }

    // Binding and borders, strips across the width. American Patchwork & Quilting, "Built-to-Order" runner, 2022: border 3 strips of 2½ from ⅓ yd, binding 4
    // strips of 2½ from ⅜ yd; an 18½ in square: 3 strips of 2½ from ⅓ yd (allpeoplequilt.com). Quilter's World, June 2021: 60 × 70 in at 40 in, 7 strips of
    // 2½, ⅝ yd. Sylvia's Quilt Depot, sylviasquiltdepot.com/measuring-fabric-for-continuous-strips.htm: 5 strips of 2½, 12½ in, ½ yd.
    // jmncreativeendeavours.ca/2022/04/18/: 20 in of cloth give six 3 in strips, or seven of 2¾ in 19¼ in.
    [Theory]
    [InlineData(42, 2.5, 3, 7.5, 12)]
    [InlineData(42, 2.5, 4, 10, 13.5)]
    [InlineData(40, 2.5, 7, 17.5, 22.5)]
    [InlineData(40, 2.5, 5, 12.5, 18)]
    [InlineData(42, 3, 6, 18, 20)]
    [InlineData(42, 2.75, 7, 19.25, 20)]
    public void Plan_PrintedStrips_ComeFromThePrintedLength(double width, double height, int count, double length, double printed)
    {
        var plan = Proved(Cut(Bolt((decimal)width, 0.5m), Piece("strip", (decimal)width, (decimal)height, count)));
        Assert.Equal(In((decimal)length), plan.Length);
        Assert.True(plan.Buy.Length <= In((decimal)printed));
    }

    // A quilting board's answer (quiltingboard.com/main-f1/binding-math-t189575.html) for 96 × 110 in: 11 strips of 2½, "about ¾ yd". They take 27½ in, and
    // ¾ yd is 27: short. In eighths it is ⅞ yd.
    [Fact]
    public void Plan_PrintedBindingThatIsShort_IsNotReproduced() =>
        Assert.Equal(Length.FromYards(0.875m), Proved(Cut(Bolt(40), Piece("strip", 40, 2.5m, 11))).Buy.Length);

    // Missouri Star blog, "How To Figure Yardage For Quilt Binding": 7 strips of 2½, rounded up to ¼ yd: ½ yd. Sylvia's: 12½ in, ½ yd.
    [Theory]
    [InlineData(7, 18)]
    [InlineData(5, 18)]
    public void Plan_ShopThatSellsByTheQuarterYard_RoundsUpToIt(int strips, double bought) =>
        Assert.Equal(In((decimal)bought), Proved(Cut(Bolt(40, increment: 9), Piece("strip", 40, 2.5m, strips))).Buy.Length);
}
