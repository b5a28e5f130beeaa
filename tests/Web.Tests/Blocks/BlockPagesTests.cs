using System.Net;
using System.Text.RegularExpressions;
using KittingBee.Planning.Blocks;
using KittingBee.Web.Blocks;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Blocks;

/// <summary>Pages of blocks over HTTP: what is stored, what is refused, what can be taken back.</summary>
public sealed partial class BlockPagesTests : IDisposable
{
    private readonly GuildHost guild = new();
    private readonly HttpClient client;

    public BlockPagesTests() => client = guild.CreateClient();

    private static CancellationToken Stop => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Block_WithAllThatFollows_IsShown()
    {
        var id = await Add("churn-dash");
        var page = await Get($"/blocks/{id}");
        foreach (var part in new[] { "Cut list for one kit", "Units to make", "Sewing steps", "Checkpoint", "Pressing plan", "If the block measures", "What each way asks of the cloth" })
        {
            Assert.Contains(part, page, StringComparison.Ordinal);
        }
    }

    // 4 half-square triangles of 3 in: two at a time and exact 3⅞ in squares, eight at a time twice that (published formulas: finished + ⅞ in).
    [Fact]
    public async Task Block_MadeAnotherWay_ShowsTheOtherCutSizes()
    {
        var id = await Add("shoofly");
        Assert.Contains("<b>3⅞″ square</b>", await Get($"/blocks/{id}?made.Trim=Exact"), StringComparison.Ordinal);
        Assert.Contains("<b>7¾″ square</b>", await Get($"/blocks/{id}?made.Trim=Exact&made.HalfSquare=EightAtATime"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Block_BadSeamAllowance_IsSaidAtTheField_AndTheRestIsShown()
    {
        var id = await Add("shoofly");
        var page = await Get($"/blocks/{id}?made.Seam=quarter");
        Assert.Contains("“quarter” is not a length", page, StringComparison.Ordinal);
        Assert.Contains("value=\"quarter\"", page, StringComparison.Ordinal);
        Assert.Contains("Cut list for one kit", page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Copy_AndRemove_CanBeTakenBack()
    {
        var id = await Add("ohio-star");
        Assert.Contains("This is the copy: Copy of Ohio Star.", await Post("/blocks/" + id, $"/blocks/{id}?handler=Copy"), StringComparison.Ordinal);
        Assert.Equal(2, guild.Get<BlockStore>().All().Count);
        var list = await Post("/blocks/" + id, $"/blocks/{id}?handler=Remove");
        Assert.Contains("Ohio Star is removed.", list, StringComparison.Ordinal);
        Assert.Null(guild.Get<BlockStore>().Find(id));
        Assert.Contains("The block is back.", await Post("/blocks", $"/blocks/{id}?handler=PutBack"), StringComparison.Ordinal);
        Assert.NotNull(guild.Get<BlockStore>().Find(id));
    }

    [Fact]
    public async Task Export_ThenImport_GivesTheSameBlock()
    {
        var id = await Add("bears-paw");
        var file = await client.GetStringAsync(new Uri($"/blocks/{id}/block.json", UriKind.Relative), Stop);
        await Post("/blocks", "/blocks?handler=Import", ("Text", file));
        var (one, other) = (guild.Get<BlockStore>().Find(id)!, guild.Get<BlockStore>().All().Single(block => block.Id != id));
        Assert.Equal(one.Json, other.Json);
    }

    [Theory]
    [InlineData("", "There is nothing to bring in")]
    [InlineData("{", "The text is not JSON")]
    [InlineData("""{"version":2,"name":"x","columns":[1],"rows":[1],"fabrics":[],"units":[]}""", "version")]
    [InlineData("""{"name":"x","columns":[3],"rows":[3],"fabrics":[{"letter":"A","name":""}],"units":[{"row":0,"column":0,"kind":"plain","fabrics":["B"]}]}""", "units[0].fabrics[0]")]
    public async Task Import_OfSomethingWrong_IsRefusedWithTheField_AndStoresNothing(string text, string message)
    {
        using var answer = await Send("/blocks", "/blocks?handler=Import", ("Text", text));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Stop));
        Assert.Contains(message, page, StringComparison.Ordinal);
        Assert.Empty(guild.Get<BlockStore>().All());
    }

    [Fact]
    public async Task Schema_IsPublished()
    {
        var schema = await client.GetStringAsync(new Uri("/schemas/block.json", UriKind.Relative), Stop);
        Assert.Contains("\"https://json-schema.org/draft/2020-12/schema\"", schema, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Draft_KeptByAnother_IsRefusedWithoutStoring()
    {
        var drafts = guild.Get<DraftStore>();
        var id = await drafts.Begin(new BlockDraft { SketchJson = new BlockSketch { Name = "first" }.ToJson() });
        var token = await Token($"/blocks/drafts/{id}");
        await drafts.Keep(id, 1, new BlockSketch { Name = "theirs" }.ToJson());
        using var answer = await Put(id, token, 1, "mine");
        Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
        Assert.Contains("\"version\":2", await answer.Content.ReadAsStringAsync(Stop), StringComparison.Ordinal);
        Assert.Equal("theirs", BlockSketch.Parse(drafts.Find(id)!.SketchJson)!.Name);
        using var now = await Put(id, token, 2, "mine");
        Assert.Equal(HttpStatusCode.OK, now.StatusCode);
    }

    [Fact]
    public async Task Draft_SavedOverAnothersDrawing_SaysOnceThatNothingIsKept()
    {
        var drafts = guild.Get<DraftStore>();
        var id = await drafts.Begin(new BlockDraft { SketchJson = new BlockSketch { Name = "first" }.ToJson() });
        Assert.Contains("Draft kept.", await Get($"/blocks/drafts/{id}"), StringComparison.Ordinal);
        await drafts.Keep(id, 1, new BlockSketch { Name = "theirs" }.ToJson());
        using var answer = await Send($"/blocks/drafts/{id}", $"/blocks/drafts/{id}?handler=Save", ("Form.Version", "1"), ("Form.Json", new BlockSketch { Name = "mine" }.ToJson()));
        Assert.Equal(HttpStatusCode.Conflict, answer.StatusCode);
        var page = await answer.Content.ReadAsStringAsync(Stop);
        Assert.Contains("Not kept yet.", page, StringComparison.Ordinal);
        Assert.DoesNotContain("Draft kept.", page, StringComparison.Ordinal);
        Assert.Single(Regex.Matches(page, "Somebody saved this while you were editing"));
        Assert.Equal("theirs", BlockSketch.Parse(drafts.Find(id)!.SketchJson)!.Name);
    }

    // Six seams take an eighth of an inch among them: 1/96 in on each side of a seam, finer than a ruler shows, and yet not nothing.
    [Fact]
    public async Task Block_WithManySeams_SaysOfASmallSlipThatItIsLessThanARulerShows()
    {
        var page = await Get($"/blocks/{await Add("bears-paw")}");
        Assert.Contains("each seam is less than 1/64″ too deep", page, StringComparison.Ordinal);
        Assert.DoesNotContain("≈0″", page, StringComparison.Ordinal);
    }

    // A closing tab sends beside what is on its way already: either may arrive first.
    [Theory]
    [InlineData(1, 2)]
    [InlineData(2, 1)]
    public async Task Draft_TwoSendsOfOneEditor_InWhateverOrder_KeepTheLater(int first, int second)
    {
        var drafts = guild.Get<DraftStore>();
        var id = await drafts.Begin(new BlockDraft { SketchJson = new BlockSketch { Name = "first" }.ToJson() });
        var token = await Token($"/blocks/drafts/{id}");
        foreach (var sequence in new[] { first, second })
        {
            using var answer = await Put(id, token, 1, $"send {sequence}", "editor", sequence);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        }

        Assert.Equal("send 2", BlockSketch.Parse(drafts.Find(id)!.SketchJson)!.Name);
        using var another = await Put(id, token, 1, "another", "another", 9);
        Assert.Equal(HttpStatusCode.Conflict, another.StatusCode);
        using var nameless = await Put(id, token, drafts.Find(id)!.Version, "nameless", "");
        Assert.Equal(HttpStatusCode.BadRequest, nameless.StatusCode);
        Assert.Equal("send 2", BlockSketch.Parse(drafts.Find(id)!.SketchJson)!.Name);
    }

    [Fact]
    public async Task Draft_FromAnotherSite_IsRefused()
    {
        var id = await guild.Get<DraftStore>().Begin(new BlockDraft { SketchJson = new BlockSketch { Name = "first" }.ToJson() });
        using var answer = await Put(id, "forged", 1, "mine");
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Equal("first", BlockSketch.Parse(guild.Get<DraftStore>().Find(id)!.SketchJson)!.Name);
    }

    [Fact]
    public async Task Saving_OverABlockChangedSince_AsksFirst()
    {
        var id = await Add("shoofly");
        var address = Regex.Match(await Post($"/blocks/{id}", $"/blocks/{id}?handler=Edit"), "/blocks/drafts/[0-9]+").Value;
        var blocks = guild.Get<BlockStore>();
        await blocks.Save(blocks.Find(id)! with { Name = "Changed elsewhere" });
        var draft = guild.Get<DraftStore>().OfBlock(id)!;
        using var refused = await Send(address, address + "?handler=Save", ("Form.Version", "1"), ("Form.Json", draft.SketchJson));
        Assert.Equal(HttpStatusCode.Conflict, refused.StatusCode);
        Assert.Equal("Changed elsewhere", blocks.Find(id)!.Name);
        using var saved = await Send(address, address + "?handler=Save", ("Form.Version", "2"), ("Form.Json", draft.SketchJson), ("Form.Overwrite", "true"));
        Assert.Equal(HttpStatusCode.OK, saved.StatusCode);
        Assert.Equal("Shoofly", blocks.Find(id)!.Name);
        Assert.Null(guild.Get<DraftStore>().OfBlock(id));
    }

    [Fact]
    public async Task ADraftThrownAway_CanBeTakenBack()
    {
        var id = await guild.Get<DraftStore>().Begin(new BlockDraft { SketchJson = new BlockSketch { Name = "Second thoughts" }.ToJson() });
        await Post($"/blocks/drafts/{id}", $"/blocks/drafts/{id}?handler=Discard");
        Assert.Null(guild.Get<DraftStore>().Find(id));
        Assert.Contains("Second thoughts", await Post("/blocks", $"/blocks?id={id}&handler=PutBackDraft"), StringComparison.Ordinal);
    }

    [Fact]
    public async Task TypedList_ALineThatIsNone_IsSaidAtTheLine_AndNothingIsStored()
    {
        using var answer = await Send("/blocks/typed", "/blocks/typed?handler=Save", ("Form.Name", "Pattern"), ("Form.Lines", "A 4 squares 4 1/2\nB 2 squares"));
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        var page = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Stop));
        Assert.Matches("<li value=\"2\" class=\"wrong\">", page);
        Assert.Contains("B 2 squares</textarea>", page, StringComparison.Ordinal);
        Assert.Empty(guild.Get<BlockStore>().All());
    }

    [Fact]
    public async Task TypedList_IsSaved_AndGivesItsPieces()
    {
        var page = await Post("/blocks/typed", "/blocks/typed?handler=Save", ("Form.Name", "Pattern"), ("Form.Lines", "A 4 squares 4 1/2\nB: 2 @ 2 x 14½"));
        Assert.Contains("<b>4 @ 4½″ square</b>", page, StringComparison.Ordinal);
        Assert.Equal("A 4 squares 4 1/2\nB: 2 @ 2 x 14½", Assert.Single(guild.Get<BlockStore>().All()).TypedLines);
    }

    public void Dispose()
    {
        client.Dispose();
        guild.Dispose();
    }

    private async Task<long> Add(string starter)
    {
        var block = Starters.Find(starter)!.Block;
        return await guild.Get<BlockStore>().Add(new StoredBlock { Name = block.Name, Json = BlockJson.Write(block) });
    }

    private async Task<string> Get(string address) => WebUtility.HtmlDecode(await client.GetStringAsync(new Uri(address, UriKind.Relative), Stop));

    private async Task<string> Token(string address) => AntiforgeryToken().Match(await client.GetStringAsync(new Uri(address, UriKind.Relative), Stop)).Groups[1].Value;

    private async Task<HttpResponseMessage> Send(string page, string address, params (string Name, string Value)[] fields)
    {
        using var form = new MultipartFormDataContent();
        form.Add(new StringContent(await Token(page)), "__RequestVerificationToken");
        foreach (var (name, value) in fields)
        {
            form.Add(new StringContent(value), name);
        }

        return await client.PostAsync(new Uri(address, UriKind.Relative), form, Stop);
    }

    private async Task<string> Post(string page, string address, params (string Name, string Value)[] fields)
    {
        using var answer = await Send(page, address, fields);
        answer.EnsureSuccessStatusCode();
        return WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(Stop));
    }

    private async Task<HttpResponseMessage> Put(long id, string token, long version, string name, string editor = "one", long sequence = 1)
    {
        using var request = new HttpRequestMessage(HttpMethod.Put, $"/blocks/drafts/{id}/sketch");
        request.Headers.Add("RequestVerificationToken", token);
        request.Content = new StringContent($$"""{ "version": {{version}}, "editor": "{{editor}}", "sequence": {{sequence}}, "sketch": { "name": "{{name}}" } }""", System.Text.Encoding.UTF8, "application/json");
        return await client.SendAsync(request, Stop);
    }

    [GeneratedRegex("__RequestVerificationToken\" type=\"hidden\" value=\"([^\"]+)")]
    private static partial Regex AntiforgeryToken();
}
