using System.Diagnostics;
using System.Net;
using KittingBee.Web.Classes;
using KittingBee.Web.Packing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Packing;

/// <summary>Many devices marking one class at once.</summary>
public sealed class ManyPhonesTests(ITestOutputHelper output)
{
    private const int Phones = 50;

    private const int MarksEach = 200;

    [Fact]
    public async Task Marks_FiftyPhonesTenThousandAtOnce_NoneLostNoneDoubledAllSeeTheSame()
    {
        var cancelled = TestContext.Current.CancellationToken;
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await ExampleClass.Store(guild, 60);
        var kits = guild.Get<KitStore>().ForClass(id).Select(kit => kit.Id).ToList();
        var lines = PackLine.Of((await guild.Get<ClassPlanning>().Plan(id))!.CutList).Select(line => line.Key).ToList();
        var phones = Enumerable.Range(0, Phones).Select(_ => new Phone(address, id)).ToList();
        await Task.WhenAll(phones.Select(phone => phone.Load(cancelled)));

        var last = long.MaxValue;
        var listening = phones.Select(phone => phone.Listen(() => Volatile.Read(ref last), cancelled)).ToList();
        var clock = Stopwatch.StartNew();
        var work = await Task.WhenAll(phones.Select((phone, seed) => Pack(phone, new Random(seed), kits, lines, cancelled)));
        var seconds = clock.Elapsed.TotalSeconds;

        // A last mark for everyone to hear of ends the listening.
        Volatile.Write(ref last, guild.Get<MarkDesk>().Table(id).Sequence + 1);
        await guild.Get<MarkDesk>().Mark(id, [new NewMark(Guid.NewGuid(), kits[0], "a line of its own", KitState.Cut, "Test")]);
        await Task.WhenAll(listening).WaitAsync(TimeSpan.FromSeconds(30), cancelled);

        var times = work.SelectMany(one => one.Milliseconds).Order().ToList();
        output.WriteLine($"{Phones * MarksEach / seconds:0} marks a second, median {times[times.Count / 2]:0.0} ms, 95 % within {times[times.Count * 95 / 100]:0.0} ms");

        // None lost, none doubled: each id that was sent is there exactly once, as a mark or as the same as one.
        var sent = work.SelectMany(one => one.Ids).Select(one => one.ToString("D")).Order(StringComparer.Ordinal).ToList();
        var stored = guild.Get<Database>().Read(session => session.List<string>("SELECT id FROM kit_mark WHERE line <> 'a line of its own' UNION ALL SELECT id FROM kit_mark_same ORDER BY id"));
        Assert.Equal(Phones * MarksEach, sent.Count);
        Assert.Equal(sent, stored);
        var marks = guild.Get<PackingStore>().MarksAfter(id, 0);
        Assert.All(marks.GroupBy(mark => (mark.KitId, mark.Line)), line =>
            Assert.Distinct(KitMarks.NotUndone([.. line]).Select(mark => mark.State)));

        // All see the same, and it is what the stored marks say.
        var truth = KitMarks.Standing(marks).ToDictionary(pair => pair.Key, pair => pair.Value.State);
        Assert.All(phones, phone => Assert.Equal(truth.OrderBy(pair => pair.Key), phone.Table.OrderBy(pair => pair.Key)));
        phones.ForEach(phone => phone.Dispose());
    }

    [Fact]
    public async Task Marks_TwoPhonesOnOneLine_AreOneMark_AndOneUndoTakesItBack()
    {
        var cancelled = TestContext.Current.CancellationToken;
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await ExampleClass.Store(guild, 1);
        var kit = guild.Get<KitStore>().ForClass(id)[0].Id;
        using var one = new Phone(address, id);
        using var two = new Phone(address, id);
        await one.Load(cancelled);
        await two.Load(cancelled);
        Guid first = Guid.NewGuid(), second = Guid.NewGuid();

        await one.Send([Phone.Mark(first, kit, "A-1x1", KitState.Bagged)], cancelled);
        var (status, answer) = await two.Send([Phone.Mark(second, kit, "A-1x1", KitState.Bagged)], cancelled);
        Assert.Equal((HttpStatusCode.OK, "known"), (status, answer!["marks"]![0]!["outcome"]!.GetValue<string>()));
        Assert.Single(guild.Get<PackingStore>().MarksAfter(id, 0));

        // The second phone takes back what it knows by its own id; sent twice, it counts once. Its late repeat of the mark stays taken back.
        var undo = Phone.Undo(Guid.NewGuid(), kit, second);
        await two.Send([undo], cancelled);
        await two.Send([undo, Phone.Mark(second, kit, "A-1x1", KitState.Bagged)], cancelled);
        Assert.Null(guild.Get<MarkDesk>().Table(id).Standing(kit, "A-1x1"));
        Assert.Equal(2, guild.Get<PackingStore>().MarksAfter(id, 0).Count);
    }

    [Fact]
    public async Task Stream_AfterABreakAndANewTable_SendsWhatWasMissedAndNoLess()
    {
        var cancelled = TestContext.Current.CancellationToken;
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await ExampleClass.Store(guild, 3);
        var kits = guild.Get<KitStore>().ForClass(id);
        using var phone = new Phone(address, id);
        using var other = new Phone(address, id);
        await other.Load(cancelled);
        await other.Send(kits.Select(kit => Phone.Mark(Guid.NewGuid(), kit.Id, "A-1x1", KitState.Bagged)), cancelled);
        await phone.Listen(() => guild.Get<MarkDesk>().Table(id).Sequence, cancelled);
        Assert.Equal(3, phone.Table.Count);

        // While the phone is away, one tick is taken back and another made; the table in memory is lost, as at a restart.
        var seen = phone.Sequence;
        var undone = guild.Get<PackingStore>().MarksAfter(id, 0)[0];
        await other.Send([Phone.Undo(Guid.NewGuid(), undone.KitId, undone.Id), Phone.Mark(Guid.NewGuid(), kits[2].Id, "B-1x1", KitState.Cut)], cancelled);
        guild.Get<MarkDesk>().Forget(id);
        await phone.Listen(() => seen + 1, cancelled);
        Assert.Equal(
            [((kits[1].Id, "A-1x1"), KitState.Bagged), ((kits[2].Id, "A-1x1"), KitState.Bagged), ((kits[2].Id, "B-1x1"), KitState.Cut)],
            phone.Table.OrderBy(pair => pair.Key).Select(pair => (pair.Key, pair.Value)));
    }

    [Fact]
    public async Task Marks_AnOlderCutAfterBagged_DoesNotTakeItOutOfTheBag()
    {
        var cancelled = TestContext.Current.CancellationToken;
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await ExampleClass.Store(guild, 1);
        var kit = guild.Get<KitStore>().ForClass(id)[0].Id;
        using var phone = new Phone(address, id);
        await phone.Load(cancelled);
        await phone.Send([Phone.Mark(Guid.NewGuid(), kit, "A-1x1", KitState.Bagged), Phone.Mark(Guid.NewGuid(), kit, "A-1x1", KitState.Cut)], cancelled);
        Assert.Equal(KitState.Bagged, guild.Get<MarkDesk>().Table(id).Standing(kit, "A-1x1")?.State);
    }

    [Fact]
    public async Task Marks_BadOnes_AreNamedAndNothingIsStored()
    {
        var cancelled = TestContext.Current.CancellationToken;
        using var guild = new GuildHost();
        var address = guild.Listen();
        var id = await ExampleClass.Store(guild, 1);
        var other = await ExampleClass.Store(guild, 1);
        var kit = guild.Get<KitStore>().ForClass(id)[0].Id;
        using var phone = new Phone(address, id);
        await phone.Load(cancelled);

        var (forged, _) = await phone.Send([Phone.Mark(Guid.NewGuid(), kit, "A-1x1", KitState.Cut)], cancelled, forged: true);
        Assert.Equal(HttpStatusCode.Forbidden, forged);
        var (status, body) = await phone.Send([Phone.Mark(Guid.NewGuid(), kit, "A-1x1", "lost")], cancelled);
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Contains("“lost” is no state", body!["errors"]!["marks[0].state"]![0]!.GetValue<string>(), StringComparison.Ordinal);
        var (_, refused) = await phone.Send([Phone.Mark(Guid.NewGuid(), guild.Get<KitStore>().ForClass(other)[0].Id, "A-1x1", KitState.Cut)], cancelled);
        Assert.Equal("This kit is not in this class.", refused!["refused"]![0]!["why"]!.GetValue<string>());
        Assert.Empty(guild.Get<PackingStore>().MarksAfter(id, 0));
        Assert.Empty(guild.Get<PackingStore>().MarksAfter(other, 0));
    }

    /// <summary>One phone's evening: ticks, now and then an undo of one of its own, now and then the same sent twice.</summary>
    private static async Task<(List<Guid> Ids, List<double> Milliseconds)> Pack(Phone phone, Random random, List<long> kits, List<string> lines, CancellationToken cancelled)
    {
        var ids = new List<Guid>();
        var times = new List<double>();
        var own = new List<(Guid Id, long Kit)>();
        for (var made = 0; made < MarksEach; made++)
        {
            var id = Guid.NewGuid();
            object mark;
            if (own.Count > 0 && random.Next(5) == 0)
            {
                var (undoes, of) = own[random.Next(own.Count)];
                mark = Phone.Undo(id, of, undoes);
            }
            else
            {
                var kit = kits[random.Next(kits.Count)];
                mark = Phone.Mark(id, kit, lines[random.Next(lines.Count)], random.Next(3) == 0 ? KitState.Cut : KitState.Bagged);
                own.Add((id, kit));
            }

            ids.Add(id);
            var clock = Stopwatch.StartNew();
            var (status, answer) = await phone.Send([mark], cancelled);
            times.Add(clock.Elapsed.TotalMilliseconds);
            Assert.Equal(HttpStatusCode.OK, status);
            Assert.Equal(id, answer!["marks"]![0]!["id"]!.GetValue<Guid>());
            if (random.Next(10) == 0)
            {
                await phone.Send([mark], cancelled);
            }
        }

        return (ids, times);
    }
}
