using System.Net;
using KittingBee.Web.Backups;
using KittingBee.Web.Packing;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Packing;
using KittingBee.Web.Tests.Pages;

namespace KittingBee.Web.Tests.Backups;

public sealed class BackupPagesTests : IDisposable
{
    private readonly GuildHost guild = new();
    private readonly PageClient pages;

    public BackupPagesTests() => pages = new PageClient(guild);

    [Fact]
    public async Task Restore_ShowsWhatWouldChange_PutsItBack_AndIsUndone()
    {
        var classId = await SampleGuild.Fill(guild, students: 3);
        var (made, _) = await pages.Post("/settings/backups", "/settings/backups?handler=Make");
        Assert.Equal(HttpStatusCode.Redirect, made);
        var copy = Assert.Single(guild.Get<BackupBook>().All());
        var roster = guild.Get<RosterStore>();
        await roster.Add(classId, [new Student { Name = "Late Comer" }]);
        var evening = await guild.Get<ClassStore>().Add(guild.Get<ClassStore>().Find(classId)! with { Title = "Evening class" });

        Assert.Contains("1 class, 3 students", FormClient.Words(await pages.Get("/settings/backups")), StringComparison.Ordinal);
        var look = FormClient.Words(await pages.Get($"/settings/backups/{copy.Name}"));
        Assert.Contains("These classes would go: Evening class", look, StringComparison.Ordinal);
        Assert.Contains("These would change: Corner Star cushion, 2031-04-12, 3 students", look, StringComparison.Ordinal);

        var (restored, to) = await pages.Post($"/settings/backups/{copy.Name}", $"/settings/backups/{copy.Name}?handler=Restore");
        Assert.Equal((HttpStatusCode.Redirect, "/settings/backups"), (restored, to));
        Assert.Null(guild.Get<ClassStore>().Find(evening));
        Assert.Equal(SampleGuild.Names.Take(3), roster.ForClass(classId).Select(student => student.Name));

        var after = await pages.Get("/settings/backups");
        var before = guild.Get<BackupBook>().All()[0];
        Assert.Equal(BackupReason.BeforeRestore, before.Why);
        Assert.Contains($"/settings/backups/{before.Name}?handler=Restore", WebUtility.HtmlDecode(after), StringComparison.Ordinal);
        await pages.Post("/settings/backups", $"/settings/backups/{before.Name}?handler=Restore");
        Assert.NotNull(guild.Get<ClassStore>().Find(evening));
        Assert.Equal(4, roster.ForClass(classId).Count);
    }

    [Fact]
    public async Task Restore_TakesMarksOutOfTheTablesInMemory()
    {
        var classId = await ExampleClass.Store(guild, kits: 2);
        var kit = guild.Get<KitStore>().ForClass(classId)[0].Id;
        var copy = guild.Get<BackupBook>().Make(BackupReason.ByHand);
        var desk = guild.Get<MarkDesk>();
        var first = (await desk.Mark(classId, [new NewMark(Guid.NewGuid(), kit, KitMark.WholeKit, KitState.Checked, "Ada")]))[0].Mark!.Sequence;
        Assert.NotNull(desk.Table(classId).Standing(kit, KitMark.WholeKit));
        var open = desk.Table(classId).Join("Bo", 0);

        await guild.Get<Restoring>().Restore(copy);

        Assert.Null(desk.Table(classId).Standing(kit, KitMark.WholeKit));
        var told = "";
        await foreach (var item in open.Reader.ReadAllAsync(TestContext.Current.CancellationToken))
        {
            told += System.Text.Encoding.UTF8.GetString(item.Span);
        }

        Assert.Contains("event: restored", told, StringComparison.Ordinal);
        // Pages ask for what came after the last mark they saw, so a new mark must come after it.
        Assert.True((await desk.Mark(classId, [new NewMark(Guid.NewGuid(), kit, KitMark.WholeKit, KitState.Checked, "Ada")]))[0].Mark!.Sequence > first);
    }

    [Fact]
    public async Task Copy_DamagedOrUnknown_IsRefusedAndNothingChanges()
    {
        var classId = await SampleGuild.Fill(guild, students: 1);
        var book = guild.Get<BackupBook>();
        var copy = book.Make(BackupReason.ByHand);
        await using (var file = new FileStream(book.PathOf(copy), FileMode.Open))
        {
            file.Position = 100;
            file.Write(new byte[5000]);
        }

        Assert.Contains("damaged", FormClient.Words(await pages.Get($"/settings/backups/{copy.Name}")), StringComparison.Ordinal);
        var (status, text) = await pages.Post("/settings/backups", $"/settings/backups/{copy.Name}?handler=Restore");
        Assert.Equal(HttpStatusCode.Conflict, status);
        Assert.Contains("Choose another one", text, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.NotFound, (await pages.Post("/settings/backups", "/settings/backups/..%2Fkitting-bee.db?handler=Restore")).Status);
        Assert.Single(guild.Get<RosterStore>().ForClass(classId));
    }

    [Fact]
    public async Task Download_IsAWholeDatabaseUnderASafeName()
    {
        await SampleGuild.Fill(guild, students: 1);
        var copy = guild.Get<BackupBook>().Make(BackupReason.ByHand);
        using var answer = await pages.Http.GetAsync(new Uri($"/settings/backups/{copy.Name}?handler=File", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal($"attachment; filename={"kitting-bee-" + copy.Name}; filename*=UTF-8''{"kitting-bee-" + copy.Name}", answer.Content.Headers.ContentDisposition!.ToString());
        // "SQLite format 3" and a zero begin every database: https://www.sqlite.org/fileformat.html
        Assert.Equal("SQLite format 3\0"u8.ToArray(), (await answer.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken))[..16]);
        Assert.Equal([copy.Name], Directory.GetFiles(guild.Get<BackupBook>().Folder).Select(Path.GetFileName));
    }

    [Fact]
    public async Task Destructive_Steps_MakeACopyFirst()
    {
        var classId = await SampleGuild.Fill(guild, students: 2);
        await guild.Get<ClosingStore>().Close(classId, guild.Get<ClassStore>().Find(classId)!.Version, "{}", [], forget: false);
        await pages.Post("/settings", $"/classes/{classId}/roster?handler=Forget");
        var copy = Assert.Single(guild.Get<BackupBook>().All());
        Assert.Equal(BackupReason.BeforeForgetting, copy.Why);
        using var old = new Database(guild.Get<BackupBook>().PathOf(copy), TimeProvider.System);
        Assert.Equal("Ada Lindqvist", new RosterStore(old).ForClass(classId)[0].Name);
        Assert.NotEqual("Ada Lindqvist", guild.Get<RosterStore>().ForClass(classId)[0].Name);
    }

    public void Dispose()
    {
        pages.Dispose();
        guild.Dispose();
    }
}
