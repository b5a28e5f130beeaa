using KittingBee.Web.Classes;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Classes;

// Separators and quotation marks as in RFC 4180, section 2; slips of the keyboard are common practice, no source.
public sealed class RosterLinesTests
{
    private static readonly Colourway[] Ways =
        [new() { Id = 1, Name = "Dawn" }, new() { Id = 2, Name = "Harvest" }, new() { Id = 3, Name = "Sea and sand" }];

    [Theory]
    [InlineData("\"O'Brien, Zoë\", Dawn", "O'Brien, Zoë||1|")]
    [InlineData("\"O'Brien, Zoë\", zoe@example.org, Harvest, \"mat, ruler\"", "O'Brien, Zoë|zoe@example.org|2|mat, ruler")]
    [InlineData("Vera Holm, \"0123; 45\", Dawn", "Vera Holm|0123; 45|1|")]
    [InlineData("\"Holm; Vera\"; ; Dawn; left-handed", "Holm; Vera||1|")]
    [InlineData("\"Una \"\"Bee\"\" Berg\", , Dawn", "Una \"Bee\" Berg||1|")]
    [InlineData("Una Berg, , Dawn, lends her 5\" ruler, and mat", "Una Berg||1|lends her 5\" ruler, and mat")]
    [InlineData("\"Una Berg\"\tuna@example.org\t\"Dawn\"", "Una Berg|una@example.org|1|")]
    [InlineData("Una Berg, Don", "Una Berg|Don||")]
    [InlineData("Una Berg, Dwan, Harvest", "Una Berg|Dwan|2|")]
    [InlineData("Una Berg, dawn1@example.org", "Una Berg|dawn1@example.org||")]
    [InlineData("Una Berg, 555 0123", "Una Berg|555 0123||")]
    public void Line_IsReadInItsParts(string line, string parts)
    {
        var reading = RosterLines.Read(line, Ways, [], duplicatesMeant: false);
        Assert.Empty(reading.Problems);
        var student = Assert.Single(reading.Students);
        Assert.Equal(parts, $"{student.Name}|{student.Contact}|{student.ColourwayId}|{student.Note}");
    }

    [Theory]
    [InlineData("Una Berg, Dwan", "“Dwan”", "Write “Dawn”")]
    [InlineData("Una Berg, Hravest", "“Hravest”", "Write “Harvest”")]
    [InlineData("Una Berg, harvst, , by the window", "“harvst”", "Write “Harvest”")]
    [InlineData("Una Berg; Sea and sands", "“Sea and sands”", "“Sea and sand”")]
    [InlineData("Una Berg, \"Dawn", "opens a quotation mark", "Close it")]
    public void Line_ThatMayBeASlip_IsPointedOut(string line, string names, string remedy)
    {
        var problem = Assert.Single(RosterLines.Read("Vera Holm, Dawn\n" + line, Ways, [], duplicatesMeant: false).Problems);
        Assert.Equal("line 2", problem.Field);
        Assert.Contains(names, problem.Message, StringComparison.Ordinal);
        Assert.Contains(remedy, problem.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Contact_OfAClassWithoutColourways_IsAContact() =>
        Assert.Equal("Dwan", Assert.Single(RosterLines.Read("Una Berg, Dwan", [], [], duplicatesMeant: false).Students).Contact);
}
