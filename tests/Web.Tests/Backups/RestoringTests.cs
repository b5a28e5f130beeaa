using KittingBee.Web.Backups;
using KittingBee.Web.Sharing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Backups;

/// <summary>A restore that is stopped at any of its steps leaves what was there.</summary>
public sealed class RestoringTests : IDisposable
{
    private readonly GuildHost guild = new();

    [Fact]
    public async Task Restore_StoppedAtEachStep_LeavesTheOldDataWhole()
    {
        var classId = await SampleGuild.Fill(guild, students: 2);
        var copy = guild.Get<BackupBook>().Make(BackupReason.ByHand);
        await guild.Get<RosterStore>().Add(classId, [new Student { Name = "Late Comer" }]);
        var restoring = guild.Get<Restoring>();
        var steps = new List<string>();
        restoring.Reached = steps.Add;
        await restoring.Restore(copy);
        Assert.Equal(2, Students(classId));
        await guild.Get<RosterStore>().Add(classId, [new Student { Name = "Late Comer" }]);
        Assert.Contains("fabric", steps);
        Assert.Contains("plan", steps);

        foreach (var step in steps.Where(step => step != "brought in").Distinct().ToList())
        {
            restoring.Reached = reached => _ = reached == step ? throw new IOException($"Stopped at {step}.") : 0;
            var stopped = await Assert.ThrowsAsync<BackupException>(() => restoring.Restore(copy));
            Assert.Contains("the guild is as it was", stopped.Message, StringComparison.Ordinal);
            Assert.Equal(3, Students(classId));
            Assert.Equal("ok", guild.Get<Database>().Read(session => session.Get<string>("PRAGMA integrity_check")));
            Assert.Empty(guild.Get<Database>().Read(session => session.List<string>("SELECT \"table\" FROM pragma_foreign_key_check")));
            Assert.Empty(Directory.GetDirectories(Path.GetDirectoryName(guild.Get<Database>().File)!, "work-*"));
        }

        restoring.Reached = null;
        await restoring.Restore(copy);
        Assert.Equal(2, Students(classId));
    }

    [Fact]
    public async Task Restore_OfAnOlderSchema_IsBroughtUpToDate()
    {
        await SampleGuild.Fill(guild, students: 2);
        var file = Path.Combine(Path.GetDirectoryName(guild.Get<Database>().File)!, "old.db");
        using (var old = new Database(file, TimeProvider.System))
        {
            Migrations.Apply(old, Path.GetTempPath(), [.. Migrations.Scripts().Take(1)]);
            await old.Write(session => session.Run("INSERT INTO guild (id, name, units, paper, currency) VALUES (1, 'Long ago', 'inches', 'letter', 'USD')"));
        }

        await guild.Get<Restoring>().Replace(file, BackupReason.BeforeImport);
        Assert.Equal("Long ago", guild.Get<GuildStore>().Read().Name);
        Assert.Empty(guild.Get<ClassStore>().All());
    }

    [Fact]
    public async Task Restore_LeavesWhoMayComeIn_ExceptForWhatIsAnotherNow()
    {
        var classId = await SampleGuild.Fill(guild, students: 2);
        var copy = guild.Get<BackupBook>().Make(BackupReason.ByHand);
        var database = guild.Get<Database>();
        var kits = guild.Get<KitStore>().ForClass(classId);
        await database.Write(session => session.Run("INSERT INTO share_setting (id, password_hash) VALUES (1, 'changed since')"));
        await database.Write(session => session.Run("INSERT INTO kit_link (kit_id, link) VALUES (@one, NULL), (@two, 'AAAAAAAAAAAAAAAAAAAAAAAA')", new { one = kits[0].Id, two = kits[1].Id }));
        var devices = guild.Get<Devices>();
        var teacher = await devices.SignIn(Role.Teacher, null, "laptop");
        var helper = await devices.SignIn(Role.Helper, classId, "phone");
        // The second bag's number belongs to another bag in the copy, and so does the class's.
        await database.Write(session => session.Run("UPDATE kit SET code = 'ZZZZZ9' WHERE id = @id", new { id = kits[1].Id }));
        await guild.Get<Restoring>().Restore(copy);

        Assert.Equal("changed since", database.Read(session => session.Get<string>("SELECT password_hash FROM share_setting")));
        Assert.Equal([kits[0].Id], database.Read(session => session.List<long>("SELECT kit_id FROM kit_link")));
        Assert.NotNull(devices.Find(teacher));
        Assert.NotNull(devices.Find(helper));

        await database.Write(session => session.Run("UPDATE class SET created_at = '2020-01-01T00:00:00.000Z'"));
        await guild.Get<Restoring>().Restore(guild.Get<BackupBook>().All()[^1]);
        Assert.NotNull(devices.Find(teacher));
        Assert.Null(devices.Find(helper));
    }

    private int Students(long classId) => guild.Get<RosterStore>().ForClass(classId).Count;

    public void Dispose() => guild.Dispose();
}
