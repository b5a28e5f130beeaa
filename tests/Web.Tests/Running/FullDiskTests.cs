using System.Diagnostics;
using System.Net;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Running;

/// <summary>The program on a real disk of four megabytes that fills up, and on one that may not be written.</summary>
public sealed class FullDiskTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("kitting-bee-disk-").FullName;
    private bool mounted;

    [Fact]
    public async Task Disk_ThatFillsUp_IsSaidOnThePage_AndWhatWasStoredIsWhole()
    {
        Mount("size=4m");
        using var guild = new GuildHost();
        var classId = await SampleGuild.Fill(guild, students: 2);
        guild.Get<Database>().CopyTo(Path.Combine(folder, "kitting-bee.db"));
        using (var program = await OwnProgram.Start(folder))
        {
            using var client = new HttpClient { BaseAddress = program.Address };
            var form = new FormClient(client);
            await form.Get("/settings");
            await using (var filler = new FileStream(Path.Combine(folder, "filler"), FileMode.Create))
            {
                try
                {
                    while (true)
                    {
                        filler.Write(new byte[4096]);
                        filler.Flush();
                    }
                }
                catch (IOException)
                {
                    // The disk is full.
                }
            }

            var students = string.Join('\n', Enumerable.Range(1, 1500).Select(number => $"Student {number}, {new string('x', 180)}@example.org"));
            var (status, text) = await form.Post("/settings", $"/classes/{classId}/roster?handler=Paste", new Dictionary<string, string> { ["Lines"] = students });
            Assert.Equal(HttpStatusCode.InsufficientStorage, status);
            Assert.Contains("The disk is full", FormClient.Words(text), StringComparison.Ordinal);
            var (full, copy) = await form.Post("/settings/backups", "/settings/backups?handler=Make", new Dictionary<string, string>());
            Assert.Equal(HttpStatusCode.InsufficientStorage, full);
            Assert.Contains("No copy of the database could be made", FormClient.Words(copy), StringComparison.Ordinal);
            Assert.Empty(Directory.GetFiles(Path.Combine(folder, "backups"), "*.part"));

            File.Delete(Path.Combine(folder, "filler"));
            var (again, _) = await form.Post("/settings", $"/classes/{classId}/roster?handler=Paste", new Dictionary<string, string> { ["Lines"] = students });
            Assert.Equal(HttpStatusCode.OK, again);
        }

        using var database = new Database(Path.Combine(folder, "kitting-bee.db"), TimeProvider.System);
        Assert.Equal(1502, new RosterStore(database).ForClass(classId).Count);
        Assert.Equal("ok", database.Read(session => session.Get<string>("PRAGMA integrity_check")));
    }

    [Fact]
    public async Task Folder_ThatMayNotBeWritten_IsSaidAtStart()
    {
        Mount("size=4m,ro");
        var (code, said) = await OwnProgram.Refused(folder);
        Assert.Equal(3, code);
        Assert.Contains($"The data folder {folder} cannot be used", said, StringComparison.Ordinal);
        Assert.Contains("--data", said, StringComparison.Ordinal);
    }

    private void Mount(string options)
    {
        Assert.SkipUnless(OperatingSystem.IsLinux() && Environment.UserName == "root" && Run("mount", "-t", "tmpfs", "-o", options, "tmpfs", folder), "A disk of its own size is mounted for this, which needs Linux and its administrator.");
        mounted = true;
    }

    private static bool Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
        process.WaitForExit();
        return process.ExitCode == 0;
    }

    public void Dispose()
    {
        if (mounted)
        {
            Microsoft.Data.Sqlite.SqliteConnection.ClearAllPools();
            Run("umount", folder);
        }

        Directory.Delete(folder, recursive: true);
    }
}
