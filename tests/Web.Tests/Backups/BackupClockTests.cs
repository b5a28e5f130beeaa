using KittingBee.Web.Backups;
using KittingBee.Web.Running;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Backups;

/// <summary>The copies that nobody asks for.</summary>
public sealed class BackupClockTests : IDisposable
{
    private readonly GuildHost guild = new();

    private BackupBook Book => guild.Get<BackupBook>();

    [Fact]
    public async Task Start_CopiesAGuildThatHasSomething_OnceAnEvening()
    {
        await guild.Get<BackupClock>().Start();
        Assert.Empty(Book.All());
        await SampleGuild.Fill(guild, students: 1);
        await guild.Get<BackupClock>().Start();
        await guild.Get<BackupClock>().Start();
        Assert.Equal(BackupReason.Start, Assert.Single(Book.All()).Why);
    }

    [Fact]
    public async Task Daily_IsDueADayAfterTheLast()
    {
        await SampleGuild.Fill(guild, students: 1);
        var clock = new SetClock(DateTimeOffset.UtcNow);
        var book = new BackupBook(guild.Get<Database>(), guild.Get<DataFolder>(), clock);
        var first = book.Make(BackupReason.ByHand);
        clock.Now += TimeSpan.FromHours(23);
        book.MakeWhenDue(BackupReason.Daily, TimeSpan.FromDays(1));
        Assert.Equal(first, book.All()[0]);
        clock.Now += TimeSpan.FromHours(1);
        book.MakeWhenDue(BackupReason.Daily, TimeSpan.FromDays(1));
        Assert.Equal((BackupReason.Daily, first.Number + 1), (book.All()[0].Why, book.All()[0].Number));
    }

    [Fact]
    public async Task Start_LetsGoOfWhatWasTakenOutLongAgo_AfterACopyThatStillHasIt()
    {
        var classId = await SampleGuild.Fill(guild, students: 2);
        await guild.Get<ClassStore>().Remove(classId);
        var database = guild.Get<Database>();
        await database.Write(session => session.Run("UPDATE class SET deleted_at = '2020-01-01T00:00:00.000Z'"));
        await guild.Get<BackupClock>().Start();
        Assert.Equal(0, database.Read(session => session.Get<int>("SELECT count(*) FROM class")));
        var copy = Book.All()[0];
        Assert.Equal(BackupReason.BeforePurge, copy.Why);
        using var old = new Database(Book.PathOf(copy), TimeProvider.System);
        Assert.Equal(2, new RosterStore(old).ForClass(classId).Count);
    }

    public void Dispose() => guild.Dispose();
}
