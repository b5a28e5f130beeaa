using System.Net;
using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Pages;
using Microsoft.Data.Sqlite;

namespace KittingBee.Web.Tests.Storage;

/// <summary>A disk or database that refuses: said plainly, nothing lost, and all well again when it does not.</summary>
public sealed class StorageFaultsTests : IDisposable
{
    private readonly GuildHost guild = new();

    [Fact]
    public async Task Disk_Full_IsSaidAndNothingIsLost()
    {
        var classId = await SampleGuild.Fill(guild, students: 2);
        using var pages = new PageClient(guild);
        // SQLite answers SQLITE_FULL at its own limit of pages just as when the disk has no more: https://www.sqlite.org/pragma.html#pragma_max_page_count
        OnTheNextConnection("PRAGMA max_page_count = 1");
        var (status, text) = await AddStudents(pages, classId);
        Assert.Equal(HttpStatusCode.InsufficientStorage, status);
        Assert.Contains("The disk is full. Nothing of this was stored, and what was stored before is whole.", text, StringComparison.Ordinal);
        Assert.Equal(2, guild.Get<RosterStore>().ForClass(classId).Count);

        OnTheNextConnection("PRAGMA max_page_count = 1000000");
        Assert.Equal(HttpStatusCode.Redirect, (await AddStudents(pages, classId)).Status);
        Assert.Equal(402, guild.Get<RosterStore>().ForClass(classId).Count);
    }

    [Fact]
    public async Task Database_ThatMayNotBeWritten_IsSaidAndNothingIsLost()
    {
        var classId = await SampleGuild.Fill(guild, students: 2);
        using var pages = new PageClient(guild);
        OnTheNextConnection("PRAGMA query_only = ON");
        var (status, text) = await AddStudents(pages, classId);
        Assert.Equal(HttpStatusCode.InternalServerError, status);
        Assert.Contains("The data folder cannot be written to. Nothing of this was stored.", text, StringComparison.Ordinal);
        OnTheNextConnection("PRAGMA query_only = OFF");
        Assert.Equal(2, guild.Get<RosterStore>().ForClass(classId).Count);
    }

    [Fact]
    public async Task Database_HeldByAnotherProgram_IsSaid_AndTakenWhenItIsFree()
    {
        var classId = await SampleGuild.Fill(guild, students: 2);
        guild.Get<Database>().Patience = TimeSpan.FromMilliseconds(50);
        using var pages = new PageClient(guild);
        using (var other = new SqliteConnection($"Data Source={guild.Get<Database>().File};Pooling=False"))
        {
            other.Open();
            using var hold = other.CreateCommand();
            hold.CommandText = "BEGIN IMMEDIATE";
            hold.ExecuteNonQuery();
            var (status, text) = await AddStudents(pages, classId);
            Assert.Equal(HttpStatusCode.ServiceUnavailable, status);
            Assert.Contains("held by another program", text, StringComparison.Ordinal);
        }

        Assert.Equal(HttpStatusCode.Redirect, (await AddStudents(pages, classId)).Status);
    }

    [Fact]
    public void Database_LockedAtStart_IsRefusedWithTheReason()
    {
        using var one = new TemporaryGuild();
        using var other = new SqliteConnection($"Data Source={one.Database.File};Pooling=False");
        other.Open();
        using var hold = other.CreateCommand();
        hold.CommandText = "BEGIN IMMEDIATE";
        hold.ExecuteNonQuery();
        using var late = new Database(one.Database.File, TimeProvider.System) { Patience = TimeSpan.FromMilliseconds(50) };
        var refused = Assert.Throws<DatabaseException>(() => Migrations.Apply(late, one.Backups, [.. Migrations.Scripts(), new("db/9999_more.sql", "CREATE TABLE more (id INTEGER PRIMARY KEY) STRICT;")]));
        Assert.Contains(one.Database.File, refused.Message, StringComparison.Ordinal);
        Assert.Contains("Close that program", refused.Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Database_DamagedWhileTheProgramRuns_IsSaidOnThePage_AndToWhateverWatches()
    {
        await SampleGuild.Fill(guild, students: 1);
        using var pages = new PageClient(guild);
        Assert.Equal("ready\n", await pages.Http.GetStringAsync(new Uri("/healthz", UriKind.Relative), TestContext.Current.CancellationToken));
        SqliteConnection.ClearAllPools();
        await File.WriteAllTextAsync(guild.Get<Database>().File, new string('x', 8192), TestContext.Current.CancellationToken);

        using var health = await pages.Http.GetAsync(new Uri("/healthz", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.ServiceUnavailable, health.StatusCode);
        Assert.Equal("the database does not answer\n", await health.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        using var page = await pages.Http.GetAsync(new Uri("/classes", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.InternalServerError, page.StatusCode);
        Assert.Contains("The database is damaged.", WebUtility.HtmlDecode(await page.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)), StringComparison.Ordinal);
    }

    // Codes from https://www.sqlite.org/rescode.html
    [Theory]
    [InlineData(5, "held by another program")]
    [InlineData(6, "held by another program")]
    [InlineData(8, "cannot be written to")]
    [InlineData(10, "may be full, unplugged or failing")]
    [InlineData(11, "damaged")]
    [InlineData(13, "disk is full")]
    [InlineData(14, "cannot be written to")]
    [InlineData(26, "damaged")]
    public void Fault_OfTheDatabase_SaysWhatToDo(int code, string said) =>
        Assert.Contains(said, StorageFaults.Explain(new SqliteException("no", code)), StringComparison.Ordinal);

    [Fact]
    public void Fault_OfAnythingElse_IsNoneOfTheDisk()
    {
        Assert.Null(StorageFaults.Explain(new InvalidOperationException("A cutting plan failed its check.")));
        Assert.Null(StorageFaults.Explain(new SqliteException("UNIQUE constraint failed", 19)));
    }

    [Fact]
    public async Task Clock_SetBack_LeavesMarksAndVersionsInTheirOrder()
    {
        var folder = Directory.CreateTempSubdirectory("kitting-bee-clock-").FullName;
        var clock = new SetClock(new DateTimeOffset(2031, 4, 12, 9, 0, 0, TimeSpan.Zero));
        using (var database = new Database(Path.Combine(folder, "guild.db"), clock))
        {
            Migrations.Apply(database, folder);
            var classes = new ClassStore(database);
            var classId = await classes.Add(new ClassRecord { Title = "Evening", BlockName = "Typed", TypedLines = "A 4 squares 4 1/2", KitsOnly = 1 });
            var kit = new KitStore(database).ForClass(classId)[0].Id;
            var packing = new PackingStore(database);
            await packing.Mark([(classId, new NewMark(Guid.NewGuid(), kit, KitMark.WholeKit, KitState.Checked, "Ada"))]);
            clock.Now = clock.Now.AddYears(-3);
            await packing.Mark([(classId, new NewMark(Guid.NewGuid(), kit, KitMark.WholeKit, KitState.HandedOver, "Bo"))]);
            Assert.Equal([KitState.Checked, KitState.HandedOver], packing.MarksAfter(classId, 0).Select(mark => mark.State));
            Assert.Equal(KitState.HandedOver, packing.MarksOfKit(classId, kit)[0].State);

            var read = classes.Find(classId)!;
            Assert.Equal(Saved.Done, await classes.Save(read with { Title = "Later" }));
            Assert.Equal(Saved.Stale, await classes.Save(read with { Title = "Too late" }));
        }

        Directory.Delete(folder, recursive: true);
    }

    // What a connection is told stays with it in the pool, and the next to ask gets it.
    private void OnTheNextConnection(string pragma)
    {
        using var connection = guild.Get<Database>().Open();
        using var command = connection.CreateCommand();
        command.CommandText = pragma;
        command.ExecuteNonQuery();
    }

    private static Task<(HttpStatusCode Status, string Text)> AddStudents(PageClient pages, long classId) => pages.Post(
        "/settings", $"/classes/{classId}/roster?handler=Paste", ("Lines", string.Join('\n', Enumerable.Range(1, 400).Select(number => $"Student {number}, {new string('x', 180)}@example.org"))));

    public void Dispose() => guild.Dispose();
}
