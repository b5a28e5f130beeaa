using System.Text.RegularExpressions;
using KittingBee.Web.Backups;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Running;
using Microsoft.Data.Sqlite;

namespace KittingBee.Web.Tests.Backups;

/// <summary>The program itself, killed without warning while a class is saved and while a copy is put back.</summary>
public sealed partial class KilledAnywhereTests : IDisposable
{
    private const int Rounds = 8;

    private readonly string folder = Directory.CreateTempSubdirectory("kitting-bee-killed-").FullName;

    private string Data => Path.Combine(folder, "kitting-bee.db");

    [Fact]
    public async Task Program_KilledWhileAClassIsSaved_KeepsTheLastAcknowledgedOrTheNext()
    {
        var classId = await FillFolder();
        var random = new Random(7);
        var (acknowledged, sent) = ("Corner Star cushion", "");
        for (var round = 0; round < Rounds; round++)
        {
            using var program = await OwnProgram.Start(folder);
            using var client = new HttpClient { BaseAddress = program.Address };
            var form = new FormClient(client);
            var (_, page) = await form.Get($"/classes/{classId}/change");
            var fields = Selects().Matches(page).ToDictionary(select => select.Groups[1].Value, select => Chosen().Match(select.Value) is { Success: true } match ? match.Groups[1].Value + match.Groups[2].Value : "");
            var killed = Task.Delay(random.Next(50, 600), TestContext.Current.CancellationToken).ContinueWith(_ => program.Kill(), TaskScheduler.Default);
            try
            {
                for (var number = 1; ; number++)
                {
                    sent = $"Title {round}-{number}";
                    var (status, again) = await form.Post($"/classes/{classId}/change", $"/classes/{classId}/change", new Dictionary<string, string>(fields) { ["Form.Title"] = sent });
                    Assert.Equal(System.Net.HttpStatusCode.OK, status);
                    Assert.DoesNotContain("field-validation-error", again, StringComparison.Ordinal);
                    acknowledged = sent;
                }
            }
            catch (Exception e) when (e is HttpRequestException or IOException)
            {
                // It is dead.
            }

            await killed;
            Assert.Equal("ok", Scalar("PRAGMA integrity_check"));
            var stored = Scalar("SELECT title FROM class");
            Assert.True(stored == acknowledged || stored == sent, $"{stored} is neither {acknowledged} nor {sent}.");
            acknowledged = stored;
        }

        Assert.NotEqual("Corner Star cushion", acknowledged);
    }

    [Fact]
    public async Task Program_KilledWhileACopyIsPutBack_HasAllOfTheOldOrAllOfTheNew()
    {
        var classId = await FillFolder();
        string copy;
        using (var database = new Database(Data, TimeProvider.System))
        {
            Directory.CreateDirectory(Path.Combine(folder, "backups"));
            var file = BackupFile.Next(Path.Combine(folder, "backups"), BackupReason.ByHand, DateTimeOffset.UtcNow);
            database.CopyTo(file);
            copy = Path.GetFileName(file);
            await new RosterStore(database).Add(classId, [.. Enumerable.Range(0, 500).Select(number => new Student { Name = $"New {number}", Note = new string('n', 200) })]);
            await database.Write(session => session.Run("UPDATE guild SET name = 'New'"));
        }

        var random = new Random(11);
        var seen = new HashSet<string>();
        for (var round = 0; round < Rounds; round++)
        {
            using var program = await OwnProgram.Start(folder);
            using var client = new HttpClient { BaseAddress = program.Address };
            var form = new FormClient(client);
            await form.Get($"/settings/backups/{copy}");
            var killed = Task.Delay(random.Next(10, 500), TestContext.Current.CancellationToken).ContinueWith(_ => program.Kill(), TaskScheduler.Default);
            try
            {
                await form.Post($"/settings/backups/{copy}", $"/settings/backups/{copy}?handler=Restore", new Dictionary<string, string>());
            }
            catch (Exception e) when (e is HttpRequestException or IOException)
            {
                // It is dead.
            }

            await killed;
            Assert.Equal("ok", Scalar("PRAGMA integrity_check"));
            var state = $"{Scalar("SELECT name FROM guild")} {Scalar("SELECT count(*) FROM student")} {Scalar("SELECT count(*) FROM kit")}";
            Assert.True(state is "New 503 505" or "Millpond Piecers 3 5", state);
            seen.Add(state);
            using var database = new Database(Data, TimeProvider.System);
            if (state[0] == 'M')
            {
                await new RosterStore(database).Add(classId, [.. Enumerable.Range(0, 500).Select(number => new Student { Name = $"New {number}", Note = new string('n', 200) })]);
                await database.Write(session => session.Run("UPDATE guild SET name = 'New'"));
            }
        }

        Assert.NotEmpty(seen);
        Assert.All(BackupFile.In(Path.Combine(folder, "backups")), kept => Assert.Null(DatabaseFile.Fault(Path.Combine(folder, "backups", kept.Name))));
    }

    [Fact]
    public async Task Program_OnADamagedDatabase_SaysSoAndTouchesNothing()
    {
        await FillFolder();
        SqliteConnection.ClearAllPools();
        var bytes = await File.ReadAllBytesAsync(Data, TestContext.Current.CancellationToken);
        bytes.AsSpan(4096).Fill(0x5A);
        await File.WriteAllBytesAsync(Data, bytes, TestContext.Current.CancellationToken);
        var (code, said) = await OwnProgram.Refused(folder);
        Assert.Equal(3, code);
        Assert.Contains("damaged", said, StringComparison.Ordinal);
        Assert.Contains("backups", said, StringComparison.Ordinal);
        Assert.Equal(bytes, await File.ReadAllBytesAsync(Data, TestContext.Current.CancellationToken));
    }

    private async Task<long> FillFolder()
    {
        long classId;
        using (var guild = new GuildHost())
        {
            classId = await SampleGuild.Fill(guild, students: 3);
            guild.Get<Database>().CopyTo(Data);
        }

        return classId;
    }

    private string Scalar(string sql)
    {
        using var connection = new SqliteConnection($"Data Source={Data};Pooling=False");
        connection.Open();
        using var command = connection.CreateCommand();
        command.CommandText = sql;
        return Convert.ToString(command.ExecuteScalar(), System.Globalization.CultureInfo.InvariantCulture)!;
    }

    [GeneratedRegex("<select[^>]*name=\"([^\"]+)\".*?</select>", RegexOptions.Singleline)]
    private static partial Regex Selects();

    [GeneratedRegex("<option[^>]*?(?:value=\"([^\"]*)\" selected|selected=\"selected\" value=\"([^\"]*)\")")]
    private static partial Regex Chosen();

    public void Dispose() => Directory.Delete(folder, recursive: true);
}
