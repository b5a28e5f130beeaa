using KittingBee.Web.Backups;
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

    private int Students(long classId) => guild.Get<RosterStore>().ForClass(classId).Count;

    public void Dispose() => guild.Dispose();
}
