using System.Globalization;
using System.Net;
using System.Text.RegularExpressions;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Pages;

namespace KittingBee.Web.Tests.Blocks;

/// <summary>Projects over HTTP: shown, saved, edited with versions, taken back, and sewn by a class.</summary>
public sealed class ProjectPagesTests : IDisposable
{
    private readonly GuildHost guild = new();
    private readonly PageClient pages;

    public ProjectPagesTests() => pages = new PageClient(guild);

    private static readonly (string, string)[] Sashed =
    [
        ("project.Name", "Sashed nine-patches"), ("project.Across", "3"), ("project.Down", "3"), ("project.Sashing", "C"),
        ("project.SashingWidth", "1 1/2"), ("project.Cornerstones", "A"), ("project.Binding", "B"), ("project.BindingStrip", "2 1/2"), ("project.Fabrics", "C sash"),
    ];

    // Three by three blocks of 9 in with 1½ in sashing: 2 × 3 + 3 × 2 strips between them, 2 × 2 cornerstones, 3 × 9 + 2 × 1½ = 30 in (counted by hand).
    [Fact]
    public async Task Project_WithSashing_CountsItsPieces()
    {
        var id = await Add("nine-patch");
        var page = WebUtility.HtmlDecode(await pages.Get($"/blocks/{id}/project?project.Across=3&project.Down=3&project.Sashing=C&project.SashingWidth=1+1/2&project.Cornerstones=A&project.Fabrics=C+sash"));
        Assert.Contains("30″ square finished, 9 blocks", page, StringComparison.Ordinal);
        var sash = Regex.Match(page, "C sash</span></th>.*?</tbody>", RegexOptions.Singleline).Value;
        Assert.Matches(">12</td>.*<b>9½″ × 2″</b>", sash.ReplaceLineEndings(" "));
        Assert.Matches(">4</td><td class=\"nowrap\" data-label=\"Cut size\"><b>2″ square</b>", page);
    }

    [Theory]
    [InlineData("project.Across=none", "project-Across-wrong", "Blocks across is “none”")]
    [InlineData("project.Across=2&project.Down=2&project.Borders=2+1/2", "project-Borders-wrong", "The border “2 1/2” does not read")]
    [InlineData("project.Across=2&project.Down=2&project.Sashing=Z&project.SashingWidth=1", "project-Sashing-wrong", "The sashing uses fabric Z, which is not listed")]
    [InlineData("project.Across=2&project.Down=2&project.Setting=OnPoint&project.Triangles=", "project-Triangles-wrong", "The side and corner triangles have no fabric")]
    [InlineData("project.Across=41", "project-Across-wrong", "from 1 to 40")]
    public async Task Project_WithSomethingWrong_SaysWhatAtItsField(string query, string field, string message)
    {
        var id = await Add("nine-patch");
        var page = WebUtility.HtmlDecode(await pages.Get($"/blocks/{id}/project?{query}"));
        Assert.Matches($"id=\"{field}\">[^<]*{Regex.Escape(message)}", page);
    }

    [Fact]
    public async Task Show_LeadsToAnAddress_AndStoresNothing()
    {
        var id = await Add("nine-patch");
        var (_, address) = await pages.Post($"/blocks/{id}/project", $"/blocks/{id}/project?handler=Show", Sashed);
        Assert.Contains("30″ square finished", WebUtility.HtmlDecode(await pages.Get(address)), StringComparison.Ordinal);
        var (status, page) = await pages.Post($"/blocks/{id}/project", $"/blocks/{id}/project?handler=Show", [.. Sashed, ("project.Borders", new string('?', 9000))]);
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("does not read", page, StringComparison.Ordinal);
        Assert.Empty(guild.Get<ProjectStore>().All());
    }

    [Fact]
    public async Task Save_Change_Remove_AndPutBack()
    {
        var (id, address) = await Save(Sashed);
        Assert.Contains(">Sashed nine-patches<", await pages.Get("/blocks"), StringComparison.Ordinal);
        Assert.Contains("Nine Patch, 9 blocks\n30″ square finished", WebUtility.HtmlDecode(await pages.Get("/blocks")), StringComparison.Ordinal);
        Assert.Contains("30″ square finished", WebUtility.HtmlDecode(await pages.Get(address)), StringComparison.Ordinal);

        var (changed, _) = await pages.Post(address, $"{address}?handler=Save", ("project.Across", "4"), ("project.Version", "1"));
        Assert.Equal(HttpStatusCode.Redirect, changed);
        var project = ProjectJson.Read(guild.Get<ProjectStore>().Find(id)!.Json).Project!;
        Assert.Equal((4, 3, "C"), (project.Across, project.Down, project.Sashing!.Letter));

        var (stale, page) = await pages.Post(address, $"{address}?handler=Save", ("project.Across", "5"), ("project.Version", "1"));
        Assert.Equal(HttpStatusCode.Conflict, stale);
        Assert.Contains("name=\"project.Version\" value=\"2\"", page, StringComparison.Ordinal);
        Assert.Contains("name=\"project.Across\" value=\"5\"", page, StringComparison.Ordinal);

        await pages.Post(address, $"{address}?handler=Remove");
        Assert.Empty(guild.Get<ProjectStore>().All());
        var (back, _) = await pages.Post("/blocks", $"{address}?handler=PutBack");
        Assert.Equal(HttpStatusCode.Redirect, back);
        Assert.Single(guild.Get<ProjectStore>().All());
    }

    [Fact]
    public async Task Save_OfSomethingWrong_SaysItAtTheField_AndStoresNothing()
    {
        var id = await Add("nine-patch");
        var (status, page) = await pages.Post($"/blocks/{id}/project", $"/blocks/{id}/project?handler=Save", [.. Sashed, ("project.Name", " "), ("project.Borders", "Z 2")]);
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Matches("id=\"project-Borders-wrong\">Border 1 uses fabric Z, which is not listed", page);
        Assert.Empty(guild.Get<ProjectStore>().All());
        var (nameless, missing) = await pages.Post($"/blocks/{id}/project", $"/blocks/{id}/project?handler=Save", [.. Sashed.Skip(1), ("project.Name", " ")]);
        Assert.Equal(HttpStatusCode.BadRequest, nameless);
        Assert.Contains("The project’s name is missing", missing, StringComparison.Ordinal);
        Assert.Empty(guild.Get<ProjectStore>().All());
    }

    [Fact]
    public async Task AProject_GoesOnWhenItsBlockIsTakenOffTheList()
    {
        var (_, address) = await Save(Sashed);
        var block = guild.Get<BlockStore>().All().Single();
        await guild.Get<BlockStore>().Remove(block.Id);
        var page = WebUtility.HtmlDecode(await pages.Get(address));
        Assert.Contains("was taken off the list of blocks", page, StringComparison.Ordinal);
        Assert.Contains("30″ square finished", page, StringComparison.Ordinal);
    }

    // 9 nine-patches of 9 in: 9 × 4 = 36 squares of one fabric and 9 × 5 of the other, 3½ in; 12 sashes 9½ × 2, 4 cornerstones;
    // binding 4 × 30½ + 10 = 132 in, 4 strips of 40 in less a join each (counted by hand).
    [Fact]
    public async Task AClass_SewsTheProject_WithItsDrawing_StepsAndEveryPiece()
    {
        var (project, _) = await Save(Sashed);
        var (status, address) = await pages.Post(
            $"/classes/new?project={project}", $"/classes/new?project={project}", [.. ClassFields.Usual, ("Form.BlockId", $"project-{project}"), ("Form.BlocksPerKit", "1")]);
        Assert.True(status == HttpStatusCode.Redirect, address);
        var id = long.Parse(address.Split('/')[^1], CultureInfo.InvariantCulture);
        var record = guild.Get<ClassStore>().Find(id)!;
        Assert.Equal("Sashed nine-patches", record.BlockName);

        var plan = (await guild.Get<ClassPlanning>().Plan(id))!;
        Assert.Equal(9, plan.BlocksPerKit);
        Assert.Equal(["A", "B", "C"], plan.Letters.Select(letter => letter.Letter));
        int Count(string use) => plan.CutList.Fabrics.SelectMany(fabric => fabric.Pieces).Where(piece => piece.Uses.Any(said => said.ToString().Contains(use, StringComparison.Ordinal))).Sum(piece => piece.Count);
        Assert.Equal(12, Count("sashing between"));
        Assert.Equal(4, Count("cornerstones"));
        Assert.Equal(4, Count("binding"));
        Assert.Equal(81, plan.CutList.Fabrics.SelectMany(fabric => fabric.Pieces).Where(piece => piece.Width == Length.FromInches(3, 1, 2)).Sum(piece => piece.Count));
        Assert.Contains(plan.CutList.Steps, step => step.ColumnSpan > 0 && step.Times % 9 == 0);
        Assert.Contains(plan.CutList.Steps, step => step.Text.Contains("sashing strip", StringComparison.Ordinal));

        Assert.Contains("9 blocks set 3 by 3", await pages.Get($"/classes/{id}"), StringComparison.Ordinal);
        var handouts = WebUtility.HtmlDecode(await pages.Get($"/classes/{id}/print/handouts"));
        Assert.Contains("The finished piece in your fabrics", handouts, StringComparison.Ordinal);
        Assert.Contains("Each of the 9 blocks must measure <b>9½″ × 9½″</b>", handouts, StringComparison.Ordinal);
        Assert.Contains("30½″ × 30½″", handouts, StringComparison.Ordinal);

        // Its own copy: the project changed later changes nothing here.
        await guild.Get<ProjectStore>().Remove(project);
        Assert.Equal(9, (await guild.Get<ClassPlanning>().Plan(id))!.BlocksPerKit);
        var copy = await guild.Get<ClassStore>().Copy(id, "Again", withRoster: false);
        Assert.Equal(record.ProjectJson, guild.Get<ClassStore>().Find(copy)!.ProjectJson);
    }

    [Fact]
    public async Task AClass_CannotTakeAProjectThatIsGone()
    {
        var (project, _) = await Save(Sashed);
        await guild.Get<ProjectStore>().Remove(project);
        var (status, page) = await pages.Post("/classes/new", "/classes/new", [.. ClassFields.Usual, ("Form.BlockId", $"project-{project}"), ("Form.BlocksPerKit", "1")]);
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("That block or project was removed", page, StringComparison.Ordinal);
        Assert.Empty(guild.Get<ClassStore>().All());
    }

    public void Dispose()
    {
        pages.Dispose();
        guild.Dispose();
    }

    private async Task<(long Id, string Address)> Save((string, string)[] fields)
    {
        var block = await Add("nine-patch");
        var (status, address) = await pages.Post($"/blocks/{block}/project", $"/blocks/{block}/project?handler=Save", fields);
        Assert.True(status == HttpStatusCode.Redirect, address);
        return (long.Parse(address.Split('/')[^1], CultureInfo.InvariantCulture), address);
    }

    private async Task<long> Add(string starter)
    {
        var block = Starters.Find(starter)!.Block;
        return await guild.Get<BlockStore>().Add(new StoredBlock { Name = block.Name, Json = BlockJson.Write(block) });
    }
}
