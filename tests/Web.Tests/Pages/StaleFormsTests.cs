using System.Net;
using KittingBee.Web.Forms;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Pages;

/// <summary>Two people with one form open: the second sees both texts, and chooses.</summary>
public sealed class StaleFormsTests : IDisposable
{
    private readonly GuildHost guild = new();
    private readonly PageClient pages;

    public StaleFormsTests() => pages = new PageClient(guild);

    [Fact]
    public void Differences_NameEveryFieldThatDiffers_AndNoOther() => Assert.Equal(
        [new("usable width", "42", "40"), new("directional", "yes", "no"), new("fabric B", "Madder", "")],
        StaleText.Differences(
            new Dictionary<string, object?> { ["name"] = "Oat", ["usable width"] = "42", ["directional"] = true, ["fabric B"] = "Madder", ["note"] = null },
            new Dictionary<string, object?> { ["name"] = "Oat ", ["usable width"] = "40", ["directional"] = false, ["note"] = "" }));

    [Fact]
    public async Task Student_ChangedByTwo_ShowsBoth_AndSendingAgainReplaces()
    {
        var classId = await SampleGuild.Fill(guild, students: 1);
        var roster = guild.Get<RosterStore>();
        var student = roster.ForClass(classId)[0];
        var address = $"/classes/{classId}/roster/{student.Id}";
        await roster.Save(student with { Contact = "first@example.org" });
        (string, string)[] mine = [("Form.Name", student.Name), ("Form.Contact", "second@example.org"), ("Form.ColourwayId", $"{student.ColourwayId}"), ("Form.Version", $"{student.Version}")];

        var (status, text) = await pages.Post(address, address, mine);
        Assert.Equal(HttpStatusCode.Conflict, status);
        var words = FormClient.Words(text);
        Assert.Contains("contact first@example.org second@example.org", words, StringComparison.Ordinal);
        Assert.DoesNotContain("colourway Dusk Dusk", words, StringComparison.Ordinal);
        Assert.Contains($"href=\"{address}\">Take what is stored", text, StringComparison.Ordinal);
        Assert.Contains("value=\"second@example.org\"", text, StringComparison.Ordinal);
        Assert.Equal("first@example.org", roster.Find(classId, student.Id)!.Contact);

        var (again, _) = await pages.Post(address, address, [.. mine[..3], ("Form.Version", $"{student.Version + 1}")]);
        Assert.Equal(HttpStatusCode.Redirect, again);
        Assert.Equal("second@example.org", roster.Find(classId, student.Id)!.Contact);
    }

    [Fact]
    public async Task Fabric_Colourway_Guild_AndTypedBlock_ShowBothTexts()
    {
        var classId = await SampleGuild.Fill(guild, students: 1);
        var fabric = guild.Get<FabricStore>().All()[0];
        await guild.Get<FabricStore>().Save(fabric with { SupplierNote = "the market" });
        await Stale($"/shelf/fabrics/{fabric.Id}", "supplier note the market", ("Form.Name", fabric.Name), ("Form.Colour", fabric.Colour), ("Form.UsableWidth", "40"), ("Form.Price", "12"), ("Form.PricePer", "yard"), ("Form.Increment", "4 1/2 in"), ("Form.Minimum", "4 1/2 in"), ("Form.ShrinkageAlong", "0"), ("Form.ShrinkageAcross", "0"), ("Form.Version", "1"));

        var way = guild.Get<ColourwayStore>().ForClass(classId)[0];
        await guild.Get<ColourwayStore>().Save(way with { Name = "Early dusk" });
        await Stale($"/classes/{classId}/fabrics/{way.Id}", "name Early dusk Late dusk", [("Name", "Late dusk"), ("Version", "1"), .. way.FabricOfLetter.Select(pair => ($"Fabric[{pair.Key}]", $"{pair.Value}"))]);

        var settings = guild.Get<GuildStore>().Read();
        await guild.Get<GuildStore>().Save(settings with { Name = "Weir Piecers" });
        await Stale("/settings", "name Weir Piecers Brook Piecers", ("Form.Name", "Brook Piecers"), ("Form.Units", "inches"), ("Form.Paper", "letter"), ("Form.Currency", "USD"), ("Form.Language", settings.Language), ("Form.Version", $"{settings.Version}"));
        Assert.Equal("Weir Piecers", guild.Get<GuildStore>().Read().Name);

        var blocks = guild.Get<BlockStore>();
        var block = await blocks.Add(new StoredBlock { Name = "Typed", TypedLines = "A 4 squares 4 1/2" });
        await blocks.Save(blocks.Find(block)! with { TypedLines = "A 5 squares 4 1/2" });
        await Stale($"/blocks/{block}/typed?handler=Save", "lines A 5 squares 4 1/2 A 6 squares 4 1/2", ("Form.Name", "Typed"), ("Form.Lines", "A 6 squares 4 1/2"), ("Form.Version", "1"));
    }

    private async Task Stale(string address, string said, params (string Name, string Value)[] fields)
    {
        var (status, text) = await pages.Post(address.Split('?')[0], address, fields);
        Assert.True(status == HttpStatusCode.Conflict, $"{address} {status}: {FormClient.Words(text)}");
        Assert.Contains(said, FormClient.Words(text), StringComparison.Ordinal);
        Assert.Contains("Nothing of yours is stored yet", text, StringComparison.Ordinal);
    }

    public void Dispose()
    {
        pages.Dispose();
        guild.Dispose();
    }
}
