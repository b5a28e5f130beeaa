using System.Net;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Running;
using Microsoft.Data.Sqlite;

namespace KittingBee.Web.Tests.Packing;

/// <summary>The program itself, killed without warning at random moments while marks are being made.</summary>
public sealed class KilledProgramTests(ITestOutputHelper output)
{
    private const int UsualKills = 40;

    private static readonly int Kills = int.TryParse(Environment.GetEnvironmentVariable("KITTING_BEE_KILLS"), out var kills) ? kills : UsualKills;

    // Two guilds side by side: while one program starts, the other is marked and killed.
    private const int Guilds = 2;

    private const int Senders = 4;

    [Fact]
    public async Task Program_KilledAgainAndAgainWhileMarking_KeepsEveryAcknowledgedMark()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "SIGKILL is sent to the program's own process, which needs Linux or macOS here.");
        var results = await Task.WhenAll(Enumerable.Range(0, Guilds).Select(guild => KillAgainAndAgain(Kills / Guilds, new Random(guild), TestContext.Current.CancellationToken)));
        var acknowledged = results.Sum(result => result.Acknowledged);
        output.WriteLine($"{Kills} kills, {acknowledged} marks acknowledged, {results.Sum(result => result.Unanswered)} cut off without an answer");
        Assert.True(acknowledged > Kills, $"Only {acknowledged} marks were acknowledged: the kills came too early to prove anything.");
    }

    private static async Task<(int Acknowledged, int Unanswered)> KillAgainAndAgain(int kills, Random random, CancellationToken cancelled)
    {
        var folder = Directory.CreateTempSubdirectory("kitting-bee-kill-").FullName;
        try
        {
            var (id, kits) = await NewClass(folder);
            var acknowledged = new List<Guid>();
            var unanswered = 0;
            for (var kill = 0; kill < kills; kill++)
            {
                using var program = await OwnProgram.Start(folder);
                await CheckAll(folder, program.Address, id, kits[0], acknowledged, cancelled);
                var first = new TaskCompletionSource();
                var senders = Enumerable.Range(0, Senders).Select(_ => MarkUntilItDies(program.Address, id, kits, new Random(random.Next()), first, cancelled)).ToList();

                // Mostly once marks are flowing, however busy the machine is; now and then before.
                await (random.Next(5) == 0 ? Task.CompletedTask : Task.WhenAny(first.Task, Task.WhenAll(senders)));
                await Task.Delay(random.Next(0, 150), cancelled);
                program.Kill();
                foreach (var (acked, open) in await Task.WhenAll(senders))
                {
                    acknowledged.AddRange(acked);
                    unanswered += open;
                }
            }

            CheckDatabase(folder, acknowledged);
            return (acknowledged.Count, unanswered);
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static async Task<(long Id, IReadOnlyList<long> Kits)> NewClass(string folder)
    {
        using var guild = new GuildHost();
        var id = await ExampleClass.Store(guild, 50);
        guild.Get<Database>().CopyTo(Path.Combine(folder, "kitting-bee.db"));
        return (id, [.. guild.Get<KitStore>().ForClass(id).Select(kit => kit.Id)]);
    }

    /// <summary>After each restart the database is sound, and every acknowledged mark is there for the program too.</summary>
    private static async Task CheckAll(string folder, Uri address, long id, long kit, List<Guid> acknowledged, CancellationToken cancelled)
    {
        CheckDatabase(folder, acknowledged);
        using var phone = new Phone(address, id);
        await phone.Load(cancelled);

        // Sent once more, a mark that is there is known; one that had been lost would be stored anew.
        foreach (var mark in acknowledged.TakeLast(5))
        {
            var (status, answer) = await phone.Send([Phone.Mark(mark, kit, "A-1x1", KitState.Cut)], cancelled);
            Assert.Equal(HttpStatusCode.OK, status);
            Assert.Equal("known", answer!["marks"]![0]!["outcome"]!.GetValue<string>());
        }
    }

    private static async Task<(List<Guid> Acknowledged, int Unanswered)> MarkUntilItDies(Uri address, long id, IReadOnlyList<long> kits, Random random, TaskCompletionSource first, CancellationToken cancelled)
    {
        var acknowledged = new List<Guid>();
        var sent = 0;
        try
        {
            using var phone = new Phone(address, id);
            await phone.Load(cancelled);
            for (; ; )
            {
                // A line of its own for each mark, so that each is stored as itself.
                var marks = Enumerable.Range(0, random.Next(1, 4)).Select(_ => Guid.NewGuid()).ToList();
                sent += marks.Count;
                var (status, answer) = await phone.Send(marks.Select(mark => Phone.Mark(mark, kits[random.Next(kits.Count)], $"L-{mark:N}", KitState.Bagged)), cancelled);
                Assert.Equal(HttpStatusCode.OK, status);
                acknowledged.AddRange(answer!["marks"]!.AsArray().Select(mark => mark!["id"]!.GetValue<Guid>()));
                first.TrySetResult();
            }
        }
        catch (Exception e) when (e is HttpRequestException or IOException or System.Text.Json.JsonException)
        {
            return (acknowledged, sent - acknowledged.Count);
        }
    }

    private static void CheckDatabase(string folder, List<Guid> acknowledged)
    {
        using var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = Path.Combine(folder, "kitting-bee.db"), Pooling = false }.ConnectionString);
        connection.Open();
        using var check = connection.CreateCommand();
        check.CommandText = "PRAGMA integrity_check";
        Assert.Equal("ok", check.ExecuteScalar());
        check.CommandText = "SELECT id FROM kit_mark";
        var stored = new List<Guid>();
        using var reader = check.ExecuteReader();
        while (reader.Read())
        {
            stored.Add(Guid.ParseExact(reader.GetString(0), "D"));
        }

        Assert.Distinct(stored);
        Assert.Empty(acknowledged.Except(stored));
    }
}
