using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Handouts;

namespace KittingBee.Web.Tests.Documents;

public sealed class BlockMeasuresTests
{
    private static readonly ClassHabits Inches = new(false, false, "USD");
    private static readonly ClassHabits Centimetres = new(true, true, "EUR");

    // Each of n seams that is e too deep makes the block 2·n·e smaller (geometry): with 3 seams, 1/32 in makes 3/16 in.
    [Fact]
    public void Rows_OfThreeSeams_AreThreeSixteenthsApart() => Assert.Equal(
        ["11¾″ ⅛″ too deep", "11 15⁄16″ 3⁄32″ too deep", "12⅛″ 1⁄16″ too deep", "12 5⁄16″ 1⁄32″ too deep", "12½″ just right", "12 11⁄16″ 1⁄32″ too shallow", "12⅞″ 1⁄16″ too shallow"],
        Rows(Length.FromInches(12, 1, 2), 3, Inches));

    [Fact]
    public void Rows_InCentimetres_AreInWholeMillimetres() => Assert.Equal(
        ["30.4 cm 2.0 mm too deep", "30.7 cm 1.5 mm too deep", "31 cm 1.0 mm too deep", "31.3 cm 0.5 mm too deep", "31.6 cm just right", "31.9 cm 0.5 mm too shallow", "32.2 cm 1.0 mm too shallow"],
        Rows(Length.FromMillimetres(316), 3, Centimetres));

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(5)]
    [InlineData(11)]
    [InlineData(40)]
    public void Rows_OfAnyNumberOfSeams_SayDifferentThings(int seams)
    {
        foreach (var habits in new[] { Inches, Centimetres })
        {
            var rows = Rows(Length.FromMillimetres(254), seams, habits);
            Assert.True(rows.Count >= 3);
            Assert.All(rows, row => Assert.DoesNotContain('≈', row));
            Assert.Equal(rows.Count, BlockMeasures.Of(Length.FromMillimetres(254), seams, habits.Metric).Select(habits.Size).Distinct().Count());
            Assert.Equal(rows.Count, BlockMeasures.Of(Length.FromMillimetres(254), seams, habits.Metric).Select(habits.OfEachSeam).Distinct().Count());
        }
    }

    private static List<string> Rows(Length right, int seams, ClassHabits habits) =>
        [.. BlockMeasures.Of(right, seams, habits.Metric).Select(row => $"{habits.Size(row)} {habits.OfEachSeam(row)}".Replace('\u00a0', ' '))];
}
