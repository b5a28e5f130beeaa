using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.RegularExpressions;
using KittingBee.Web.Backups;
using KittingBee.Web.Exchange;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Pages;

namespace KittingBee.Web.Tests.Exchange;

public sealed partial class FilePagesTests : IDisposable
{
    private readonly GuildHost guild = new();
    private readonly PageClient pages;

    public FilePagesTests() => pages = new PageClient(guild);

    [Fact]
    public async Task Guild_SavedAndBroughtIn_IsLookedAtFirst_AndUndone()
    {
        var classId = await SampleGuild.Fill(guild, students: 2);
        var file = await pages.Http.GetByteArrayAsync(new Uri("/settings/files?handler=Guild&people=true", UriKind.Relative), TestContext.Current.CancellationToken);
        await guild.Get<RosterStore>().Add(classId, [new Student { Name = "Late Comer" }]);

        var at = await Upload(file);
        Assert.Contains("These would change: Corner Star cushion", FormClient.Words(await pages.Get(at)), StringComparison.Ordinal);
        Assert.Equal(3, guild.Get<RosterStore>().ForClass(classId).Count);

        Assert.Equal((HttpStatusCode.Redirect, "/"), await pages.Post(at, at));
        Assert.Equal(2, guild.Get<RosterStore>().ForClass(classId).Count);
        var before = guild.Get<BackupBook>().All()[0];
        Assert.Equal(BackupReason.BeforeImport, before.Why);
        await pages.Post("/settings/backups", $"/settings/backups/{before.Name}?handler=Restore");
        Assert.Equal(3, guild.Get<RosterStore>().ForClass(classId).Count);
        Assert.Equal(HttpStatusCode.Redirect, (await pages.Post("/settings/files", at)).Status);
    }

    [Fact]
    public async Task Class_BroughtIn_StandsBesideTheOthers_AndLeavingItTakesNothing()
    {
        var classId = await SampleGuild.Fill(guild, students: 2);
        var file = guild.Get<FileWriter>().Class(classId, people: false)!;
        var left = await Upload(file);
        await pages.Post(left, left + "?handler=Leave");
        Assert.Single(guild.Get<ClassStore>().All());
        var at = await Upload(file);
        var words = FormClient.Words(await pages.Get(at));
        Assert.Contains("4 fabrics are on the shelf already and used as they are, 0 fabrics are new", words, StringComparison.Ordinal);
        Assert.Contains("There is a class of this title already", words, StringComparison.Ordinal);
        var (status, to) = await pages.Post(at, at);
        Assert.Equal(HttpStatusCode.Redirect, status);
        Assert.Contains("Student 1", await pages.Get(to + "/roster"), StringComparison.Ordinal);
        Assert.Equal(2, guild.Get<ClassStore>().All().Count);
    }

    [Theory]
    [InlineData("PK\u0003\u0004")]
    [InlineData("Name,Contact\nAda,ada@example.org\n")]
    [InlineData("{ \"name\": \"Lantern Star\", \"columns\": [3], \"rows\": [3] }")]
    [InlineData("")]
    public async Task File_OfAnotherKind_IsRefusedOnThePage(string content)
    {
        await SampleGuild.Fill(guild, students: 1);
        var (status, text) = await Send(Encoding.UTF8.GetBytes(content));
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Matches("field-validation-error\">(This is not a file of|Choose the file first)", text);
        Assert.Single(guild.Get<ClassStore>().All());
    }

    private async Task<string> Upload(byte[] file)
    {
        var (status, to) = await Send(file);
        Assert.True(status == HttpStatusCode.Redirect, FormClient.Words(to));
        return to;
    }

    private async Task<(HttpStatusCode Status, string Text)> Send(byte[] file)
    {
        var token = Token().Match(await pages.Get("/settings/files")).Groups[1].Value;
        using var part = new ByteArrayContent(file);
        part.Headers.ContentType = new MediaTypeHeaderValue("application/octet-stream");
        using var form = new MultipartFormDataContent { { new StringContent(token), "__RequestVerificationToken" }, { part, "file", "guild.json" } };
        using var answer = await pages.Http.PostAsync(new Uri("/settings/files", UriKind.Relative), form, TestContext.Current.CancellationToken);
        return (answer.StatusCode, answer.Headers.Location?.ToString() ?? WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)));
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" type=\"hidden\" value=\"([^\"]+)\"")]
    private static partial Regex Token();

    public void Dispose()
    {
        pages.Dispose();
        guild.Dispose();
    }
}
