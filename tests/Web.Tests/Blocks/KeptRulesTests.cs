using System.Net;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Pages;

namespace KittingBee.Web.Tests.Blocks;

/// <summary>How a block is made, kept with the block: without scripts, version checked, and where a new class starts from.</summary>
public sealed class KeptRulesTests : IDisposable
{
    private readonly GuildHost guild = new();
    private readonly PageClient pages;

    public KeptRulesTests() => pages = new PageClient(guild);

    // 4 half-square triangles of 3 in, exact: 3⅞ in squares (published formula: finished + ⅞ in).
    [Fact]
    public async Task Keep_ThenTheBlockPage_AndANewClass_FollowIt()
    {
        var id = await Add("shoofly");
        var (status, _) = await Keep(id, ("made.Trim", "Exact"), ("made.Seam", "1/4"), ("made.Step", "1/16"), ("made.Blocks", "4"));
        Assert.Equal(HttpStatusCode.Redirect, status);
        var page = WebUtility.HtmlDecode(await pages.Get($"/blocks/{id}"));
        Assert.Contains("This way is kept with the block.", page, StringComparison.Ordinal);
        Assert.Contains("<b>3⅞″ square</b>", page, StringComparison.Ordinal);
        Assert.Contains("Cut list for one kit of 4 blocks", page, StringComparison.Ordinal);

        var form = WebUtility.HtmlDecode(await pages.Get($"/classes/new?block={id}"));
        Assert.Contains("value=\"Exact\" selected", form.Replace("selected=\"selected\" value=\"Exact\"", "value=\"Exact\" selected", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Matches("name=\"Form.BlocksPerKit\" value=\"4\"", form);
    }

    [Fact]
    public async Task NewClass_ChoosingTheBlockInTheForm_TakesItsWay_UnlessAnotherWasChosen()
    {
        var id = await Add("shoofly");
        await Keep(id, ("made.Trim", "Exact"), ("made.HalfSquare", "EightAtATime"), ("made.Step", "1/16"), ("made.Blocks", "2"));
        var untouched = await Start(id, blocks: "1");
        Assert.Equal((HalfSquareMethod.EightAtATime, TrimMethod.Exact, 2, Length.FromInches(0, 1, 16)), untouched);
        var chosen = await Start(id, blocks: "6");
        Assert.Equal((HalfSquareMethod.TwoAtATime, TrimMethod.Oversize, 6, Length.FromInches(0, 1, 8)), chosen);
    }

    [Fact]
    public async Task Keep_OfBadValues_IsSaidAtTheFields_AndStoresNothing()
    {
        var id = await Add("shoofly");
        var (status, page) = await Keep(id, ("made.Seam", "quarter"), ("made.Step", "3"), ("made.Blocks", "0"), ("made.Trim", "Exact"));
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Matches("id=\"made-Seam-wrong\">[^<]*“quarter” is not a length", page);
        Assert.Matches("id=\"made-Step-wrong\">The cutting step is 3 in", page);
        Assert.Matches("id=\"made-Blocks-wrong\">Blocks in a kit is “0”", page);
        Assert.Contains("value=\"quarter\"", page, StringComparison.Ordinal);
        Assert.Matches("<option value=\"Exact\" selected", page);
        Assert.Null(guild.Get<BlockStore>().Find(id)!.Rules);
    }

    [Fact]
    public async Task Keep_OverABlockChangedSince_IsRefused_AndSendingAgainReplaces()
    {
        var id = await Add("shoofly");
        await Keep(id, ("made.Blocks", "3"));
        var (status, page) = await Keep(id, ("made.Blocks", "5"));
        Assert.Equal(HttpStatusCode.Conflict, status);
        Assert.Contains("Somebody saved this while you were editing", page, StringComparison.Ordinal);
        Assert.Contains("name=\"made.Version\" value=\"2\"", page, StringComparison.Ordinal);
        Assert.Equal(3, guild.Get<BlockStore>().Find(id)!.BlocksPerKit);
        var (again, _) = await Keep(id, ("made.Blocks", "5"), ("made.Version", "2"));
        Assert.Equal(HttpStatusCode.Redirect, again);
        Assert.Equal(5, guild.Get<BlockStore>().Find(id)!.BlocksPerKit);
        var (forgotten, _) = await pages.Post($"/blocks/{id}", $"/blocks/{id}?handler=Forget", ("made.Version", "3"));
        Assert.Equal(HttpStatusCode.Redirect, forgotten);
        Assert.Null(guild.Get<BlockStore>().Find(id)!.Rules);
    }

    [Fact]
    public async Task Show_LeadsToAnAddress_AndStoresNothing()
    {
        var id = await Add("shoofly");
        var (_, address) = await pages.Post($"/blocks/{id}", $"/blocks/{id}?handler=Show", ("made.Trim", "Exact"), ("made.Seam", "3/8"));
        Assert.Contains("made.Trim=Exact", address, StringComparison.Ordinal);
        Assert.Contains("not kept", await pages.Get(address[..address.IndexOf('#', StringComparison.Ordinal)]), StringComparison.Ordinal);
        Assert.Null(guild.Get<BlockStore>().Find(id)!.Rules);
    }

    // A drawing that is under way belongs to the block still: how it is made is no part of it.
    [Fact]
    public async Task Keep_WhileADraftIsOpen_DoesNotStandInTheDraftsWay()
    {
        var id = await Add("shoofly");
        await pages.Post($"/blocks/{id}", $"/blocks/{id}?handler=Edit");
        await Keep(id, ("made.Trim", "Exact"));
        Assert.Equal(guild.Get<BlockStore>().Find(id)!.Version, guild.Get<DraftStore>().OfBlock(id)!.BlockVersion);
        var (_, copied) = await pages.Post($"/blocks/{id}", $"/blocks/{id}?handler=Copy");
        Assert.NotNull(guild.Get<BlockStore>().Find(long.Parse(copied.Split('/')[^1], System.Globalization.CultureInfo.InvariantCulture))!.Rules);
    }

    public void Dispose()
    {
        pages.Dispose();
        guild.Dispose();
    }

    private async Task<long> Add(string starter)
    {
        var block = Starters.Find(starter)!.Block;
        return await guild.Get<BlockStore>().Add(new StoredBlock { Name = block.Name, Json = BlockJson.Write(block) });
    }

    private Task<(HttpStatusCode Status, string Text)> Keep(long id, params (string Name, string Value)[] fields) => pages.Post(
        $"/blocks/{id}", $"/blocks/{id}?handler=Keep", fields.Any(field => field.Name == "made.Version") ? fields : [.. fields, ("made.Version", "1")]);

    private async Task<(HalfSquareMethod, TrimMethod, int, Length)> Start(long block, string blocks)
    {
        var (status, address) = await pages.Post("/classes/new", "/classes/new", [.. ClassFields.Usual, ("Form.BlockId", $"{block}"), ("Form.BlocksPerKit", blocks)]);
        Assert.True(status == HttpStatusCode.Redirect, address);
        var record = guild.Get<ClassStore>().Find(long.Parse(address.Split('/')[^1], System.Globalization.CultureInfo.InvariantCulture))!;
        var methods = StoredJson.Read<Methods>(record.MethodsJson);
        return (methods.HalfSquareTriangle, methods.Trim, record.BlocksPerKit, record.CuttingStep);
    }
}
