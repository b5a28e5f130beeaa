using KittingBee.Planning.Measures;
using KittingBee.Web.Blocks;

namespace KittingBee.Web.Tests.Blocks;

public sealed class TypedBlockTests
{
    [Theory]
    [InlineData("3, 3, 3", "3|3|3")]
    [InlineData("3 3 3", "3|3|3")]
    [InlineData("3 1/2", "3.5")]
    [InlineData("3 1/2, 2¼", "3.5|2.25")]
    [InlineData("4,5", "4|5")]
    [InlineData("4,5; 3", "4.5|3")]
    [InlineData("", "")]
    public void SizeList_WaysToWriteIt_ReadAsOneWouldExpect(string text, string sizes)
    {
        var (read, problem) = SizeList.Read(text, LengthUnit.Inch, "columns");
        Assert.Null(problem);
        Assert.Equal(sizes, string.Join('|', read.Select(size => size.Inches.ToString("0.####", System.Globalization.CultureInfo.InvariantCulture))));
    }

    [Fact]
    public void SizeList_ASizeThatIsNone_IsNamedWithItsPlace()
    {
        var (_, problem) = SizeList.Read("3, x, 3", LengthUnit.Inch, "columns");
        Assert.Equal("columns[1]", problem!.Field);
        Assert.Contains("“x”", problem.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("1,1 plain A", """{"row":0,"column":0,"kind":"plain","fabrics":["A"]}""")]
    [InlineData("1-2,3: HST a b turn 90", """{"row":0,"rowSpan":2,"column":2,"kind":"half-square-triangle","fabrics":["A","B"],"turn":90}""")]
    [InlineData("1,1 flipped corners A B - - B corner 1 1/2", """{"row":0,"column":0,"kind":"flipped-corners","fabrics":["A","B",null,null,"B"],"corner":"1 1/2"}""")]
    [InlineData("2,2 checkerboard A B / B A", """{"row":1,"column":1,"kind":"checkerboard","patches":[["A","B"],["B","A"]]}""")]
    [InlineData("1,1 template A cut 3 x 4 1/2 count 2", """{"row":0,"column":0,"kind":"template","fabrics":["A"],"cutWidth":"3","cutHeight":"4 1/2","count":2}""")]
    public void UnitLines_ALine_IsOneUnit(string line, string json)
    {
        var (units, problems) = UnitLines.Read(line, LengthUnit.Inch);
        Assert.Empty(problems.Select(problem => problem.Message));
        Assert.Equal(json, units[0]!.ToJsonString(new() { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping }));
    }

    [Theory]
    [InlineData("plain A", "must begin with row and column")]
    [InlineData("1,1 plane A", "no kind of unit")]
    [InlineData("0,1 plain A", "Count from 1")]
    [InlineData("3-1,1 plain A", "Count from 1")]
    [InlineData("1,1 plain red", "“red” is not a fabric’s letter")]
    [InlineData("1,1 rails A B widths 1; x", "“x”")]
    [InlineData("1,1 plain A turn left", "give a whole number")]
    [InlineData("1,1 block {\"name\":", "not the JSON of a block")]
    public void UnitLines_ALineThatIsNone_IsNamedWithTheRemedy(string line, string message)
    {
        var (units, problems) = UnitLines.Read("1,2 plain A\n" + line, LengthUnit.Inch);
        Assert.Single(units);
        var problem = Assert.Single(problems);
        Assert.StartsWith("Line 2", problem.Message, StringComparison.Ordinal);
        Assert.Contains(message, problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void FabricLines_WaysToWriteThem_GiveLetterAndName()
    {
        var fabrics = FabricLines.Read("A background\n b: star\n\nC – sky blue");
        Assert.Equal(["A|background", "B|star", "C|sky blue"], fabrics.Select(fabric => $"{fabric.Letter}|{fabric.Name}"));
    }
}
