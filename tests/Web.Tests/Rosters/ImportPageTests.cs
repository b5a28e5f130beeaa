using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.RegularExpressions;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Pages;

namespace KittingBee.Web.Tests.Rosters;

public sealed partial class ImportPageTests : IDisposable
{
    private readonly GuildHost guild = new();
    private readonly PageClient pages;

    public ImportPageTests() => pages = new PageClient(guild);

    [Fact]
    public async Task File_WithAProblem_ShowsItAtItsRowAndStoresNothing()
    {
        var classId = await SampleGuild.Fill(guild, students: 1);
        var (status, text) = await Upload(classId, "Name;Colourway\nUlla Brand;Dusk\nVera Moss;Midnight\n"u8.ToArray());
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("Row 3: the class has no colourway “Midnight”; it has Dusk, Harvest.", text, StringComparison.Ordinal);
        var (refused, again) = await Send(classId, "Take", text);
        Assert.Equal(HttpStatusCode.BadRequest, refused);
        Assert.Contains("Nothing is taken yet", again, StringComparison.Ordinal);
        Assert.Single(guild.Get<RosterStore>().ForClass(classId));

        var (taken, _) = await Send(classId, "Take", text, ("WithoutWrong", "true"));
        Assert.Equal(HttpStatusCode.Redirect, taken);
        Assert.Equal(["Ada Lindqvist", "Ulla Brand"], guild.Get<RosterStore>().ForClass(classId).Select(student => student.Name));
    }

    [Fact]
    public async Task File_OfTwoThousand_IsTakenWhole()
    {
        var classId = await SampleGuild.Fill(guild, students: 0);
        var (status, text) = await Upload(classId, Encoding.UTF8.GetBytes("Name,Contact,Colourway\n" + string.Concat(Enumerable.Range(1, 2000).Select(index => $"Żaneta the {index}.,z{index}@example.org,{(index % 2 == 0 ? "Dusk" : "Harvest")}\n"))));
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("Add 2,000 students", text, StringComparison.Ordinal);
        var (taken, _) = await Send(classId, "Take", text);
        Assert.Equal(HttpStatusCode.Redirect, taken);
        Assert.Equal(2000, guild.Get<RosterStore>().ForClass(classId).Count);
    }

    [Fact]
    public async Task File_ThatIsNoList_IsRefusedWithTheReason()
    {
        var classId = await SampleGuild.Fill(guild, students: 1);
        var (status, text) = await Upload(classId, [0xD0, 0xCF, 0x11, 0xE0, 0, 0]);
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Contains("Save it as .xlsx without a password, or as CSV.", text, StringComparison.Ordinal);
        Assert.Single(guild.Get<RosterStore>().ForClass(classId));
    }

    [Fact]
    public async Task Forget_OnlyOfAClosedClass_KeepsTheKits()
    {
        var classId = await SampleGuild.Fill(guild, students: 3);
        var closing = guild.Get<ClosingStore>();
        Assert.False(await closing.Forget(classId));
        await closing.Close(classId, guild.Get<ClassStore>().Find(classId)!.Version, "{}", [], forget: false);
        Assert.True(await closing.Forget(classId));
        var students = guild.Get<RosterStore>().ForClass(classId);
        Assert.All(students, student => Assert.True(student is { Contact: "", Note: "" } && student.Name.StartsWith("Student ", StringComparison.Ordinal)));
        Assert.Equal(5, guild.Get<KitStore>().ForClass(classId).Count);
        Assert.Contains(closing.Traces(classId), trace => trace.What.Contains("forgotten", StringComparison.Ordinal));
    }

    [Fact]
    public async Task Export_OfTheRoster_IsSafeText()
    {
        var classId = await SampleGuild.Fill(guild);
        var text = await pages.Get($"/classes/{classId}/roster/file");
        Assert.Contains("'=Hana & Co", text, StringComparison.Ordinal);
        Assert.Contains("Dorota Wójcik", text, StringComparison.Ordinal);
    }

    private async Task<(HttpStatusCode Status, string Text)> Upload(long classId, byte[] file)
    {
        var token = Token().Match(await pages.Get($"/classes/{classId}/roster/import")).Groups[1].Value;
        using var part = new ByteArrayContent(file);
        part.Headers.ContentType = new MediaTypeHeaderValue("application/octet-stream");
        using var form = new MultipartFormDataContent { { new StringContent(token), "__RequestVerificationToken" }, { part, "upload", "list.csv" } };
        using var answer = await pages.Http.PostAsync(new Uri($"/classes/{classId}/roster/import", UriKind.Relative), form, TestContext.Current.CancellationToken);
        return (answer.StatusCode, WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)));
    }

    // Sends the preview as it stands, as a browser does.
    private Task<(HttpStatusCode Status, string Text)> Send(long classId, string handler, string preview, params (string Name, string Value)[] more)
    {
        var rows = RowsField().Match(preview).Groups[1].Value;
        var columns = Chosen().Matches(preview).Select((match, index) => ($"Columns[{index}]", match.Groups[1].Value));
        return pages.Post($"/classes/{classId}/roster/import", $"/classes/{classId}/roster/import?handler={handler}", [("Rows", rows), ("Heading", "true"), .. columns, .. more]);
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" type=\"hidden\" value=\"([^\"]+)\"")]
    private static partial Regex Token();

    [GeneratedRegex("name=\"Rows\" value=\"(.*)\" ?/?>\\s*<input")]
    private static partial Regex RowsField();

    [GeneratedRegex("<option value=\"(\\w+)\" selected")]
    private static partial Regex Chosen();

    public void Dispose()
    {
        pages.Dispose();
        guild.Dispose();
    }
}
