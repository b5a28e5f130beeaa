using System.Text;
using System.Text.Json.Nodes;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Exchange;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Exchange;

/// <summary>The guild and a class as a file: what goes out comes in the same, and nothing else comes in.</summary>
public sealed class GuildFileTests : IDisposable
{
    private readonly GuildHost here = new();
    private readonly GuildHost there = new();

    [Fact]
    public void EveryTableAndColumn_IsInTheFile_OrLeftOutOnPurpose()
    {
        var tables = here.Get<Database>().Read(session => TableShape.All(session));
        var rows = new ClassRows(tables);
        foreach (var table in tables)
        {
            Assert.True(KeptTables.Contains(table.Name) == FileFormat.LeftOut.ContainsKey(table.Name), $"{table.Name} belongs to this machine: say in FileFormat.LeftOut why no file has it.");
            Assert.True(KeptTables.Contains(table.Name) || FileFormat.OnlyInGuild.Contains(table.Name) || rows.Where(table) is not null, $"Which rows of {table.Name} are a class's? Give it a class_id, a reference, or name it in FileFormat.OnlyInGuild.");
            foreach (var column in table.Columns.Where(column => column.Type is not "INTEGER" && !KeptTables.Contains(table.Name)))
            {
                Assert.True(People.Names(table.Name, column.Name) != People.OfNobody.Contains($"{table.Name}.{column.Name}"), $"Does {table.Name}.{column.Name} hold people's data? Name it in People, one way or the other.");
            }
        }

        var file = JsonNode.Parse(here.Get<FileWriter>().Guild(people: true))!;
        Assert.Equal(tables.Where(table => !KeptTables.Contains(table.Name)).Select(table => table.Name), file["tables"]!.AsObject().Select(table => table.Key));
    }

    [Fact]
    public async Task Guild_OutAndInAndOut_IsTheSame()
    {
        var classId = await SettledClass(here);
        var file = here.Get<FileWriter>().Guild(people: true);
        await SampleGuild.Fill(there, students: 1);

        var incoming = there.Get<Incoming>();
        await incoming.Take((await incoming.Find(await incoming.Read(file)))!, withCloth: false);

        Assert.Equal(Text(file), Text(there.Get<FileWriter>().Guild(people: true)));
        Assert.Equal(here.Get<RosterStore>().ForClass(classId), there.Get<RosterStore>().ForClass(classId));
    }

    [Fact]
    public async Task Class_OutAndInAndOut_IsTheSame_AmongOtherNumbers()
    {
        var classId = await SettledClass(here);
        await SampleGuild.Fill(there, metric: true, students: 1);
        await there.Get<FabricStore>().Add(new Fabric { Name = "One more", UsableWidth = Length.FromInches(40), Increment = Length.FromInches(9) });
        var file = here.Get<FileWriter>().Class(classId, people: true)!;

        var incoming = there.Get<Incoming>();
        var waiting = (await incoming.Find(await incoming.Read(file)))!;
        // Fabrics of the same names are there, but sold by the metre.
        Assert.Equal(new MergePreview(0, 4, SameTitle: true), waiting.Merge);
        var (_, copy) = await incoming.Take(waiting, withCloth: true);

        Assert.NotEqual(classId, copy);
        Assert.Equal(Text(file), Text(there.Get<FileWriter>().Class(copy, people: true)!));
        Assert.Equal(9, there.Get<FabricStore>().All().Count);
        var (before, after) = (await here.Get<ClassPlanning>().Plan(classId), await there.Get<ClassPlanning>().Plan(copy));
        Assert.Equal(before!.Fabrics.Select(fabric => fabric.Plan!.Buy), after!.Fabrics.Select(fabric => fabric.Plan!.Buy));
        Assert.Equal(before.Kits.Select(kit => (kit.Number, kit.Code, kit.Name)), after.Kits.Select(kit => (kit.Number, kit.Code, kit.Name)));
    }

    [Fact]
    public async Task Class_IntoItsOwnGuild_IsASecondOne_AndTheFirstStays()
    {
        var classId = await SettledClass(here);
        var before = Text(here.Get<FileWriter>().Class(classId, people: true)!);
        var incoming = here.Get<Incoming>();
        var waiting = (await incoming.Find(await incoming.Read(Encoding.UTF8.GetBytes(before))))!;
        Assert.Equal(new MergePreview(4, 0, SameTitle: true), waiting.Merge);
        var (_, copy) = await incoming.Take(waiting, withCloth: false);
        Assert.Equal(before, Text(here.Get<FileWriter>().Class(classId, people: true)!));
        Assert.Equal(2, here.Get<ClassStore>().All().Count);
        Assert.Empty(here.Get<KitStore>().ForClass(classId).Select(kit => kit.Code).Intersect(here.Get<KitStore>().ForClass(copy).Select(kit => kit.Code)));
        // Its cloth is not on the shelf twice.
        Assert.Equal(2, here.Get<ShelfStore>().All().Count);
        Assert.Equal(4, here.Get<FabricStore>().All().Count);
    }

    [Fact]
    public async Task People_LeftOut_AreNowhereInTheFile()
    {
        var classId = await SettledClass(here);
        var taken = await here.Get<RosterStore>().Add(classId, [new Student { Name = "Zelda Taken Off", Contact = "zelda@example.org" }]);
        await here.Get<RosterStore>().Remove(classId, taken[0]);
        foreach (var file in new[] { here.Get<FileWriter>().Guild(people: false), here.Get<FileWriter>().Class(classId, people: false)! })
        {
            var text = Text(file);
            Assert.All([.. SampleGuild.Names.Take(4), "Zelda", "scissors", "Helping Hand"], name => Assert.DoesNotContain(name, text, StringComparison.Ordinal));
            Assert.Contains("\"Student 1\"", text, StringComparison.Ordinal);
        }

        Assert.DoesNotContain("Zelda", Text(here.Get<FileWriter>().Class(classId, people: true)!), StringComparison.Ordinal);
        Assert.Contains("Ada Lindqvist", Text(here.Get<FileWriter>().Class(classId, people: true)!), StringComparison.Ordinal);
    }

    [Fact]
    public async Task File_OfAnOlderProgram_IsBroughtUpToDate()
    {
        const string Old = """
            { "format": "kitting-bee", "version": 1, "kind": "guild", "schema": "0001_guild", "tables": {
              "guild": [ { "id": 1, "name": "Long ago", "units": "inches", "paper": "letter", "currency": "USD" } ],
              "fabric": [ { "id": 7, "name": "Oat", "colour": "#e8dcc0", "usable_width_ticks": 16256000, "price_cents": 1200, "price_per": "yard", "increment_ticks": 1828800, "minimum_ticks": 1828800, "created_at": "2025-01-01T00:00:00.000Z" } ] } }
            """;
        var incoming = here.Get<Incoming>();
        await incoming.Take((await incoming.Find(await incoming.Read(Encoding.UTF8.GetBytes(Old))))!, withCloth: false);
        Assert.Equal("Long ago", here.Get<GuildStore>().Read().Name);
        Assert.Equal(Length.FromInches(40), here.Get<FabricStore>().Find(7)!.UsableWidth);
    }

    [Fact]
    public async Task File_WrittenByHand_IsRefusedWithThePlace_AndNothingIsTakenIn()
    {
        var classId = await SettledClass(here);
        var good = Text(here.Get<FileWriter>().Class(classId, people: true)!);
        var guildBefore = Text(here.Get<FileWriter>().Guild(people: true));
        foreach (var (from, to, said) in new[]
        {
            ("\"version\": 1,\n  \"kind\"", "\"version\": 2,\n  \"kind\"", "version 2"),
            ($"\"schema\": \"{FileFormat.Schema}\"", "\"schema\": \"9999_tomorrow\"", "newer Kitting Bee"),
            ("\"kind\": \"class\"", "\"kind\": \"shop\"", "“shop”"),
            ("\"format\": \"kitting-bee\"", "\"format\": \"other\"", "not a file of a guild"),
            ("\"colourway\":", "\"colourwaise\":", "“colourwaise”"),
            ("\"usable_width_ticks\": 16256000", "\"usable_width_ticks\": \"40 in\"", "must be a whole number"),
            ("\"usable_width_ticks\": 16256000", "\"usable_width_ticks\": -5", "Table fabric, row 1"),
            ("\"colour\": \"#f1e9dc\"", "\"colour\": \"red\"", "Table fabric, row 1"),
            ("\"held_on\": \"2031-04-12\"", "\"held_on\": \"next spring\"", "In the classes"),
            ("\"pricing\": \"margin\"", "\"pricing\": \"auction\"", "Table class, row 1"),
            ("\"class_id\": 1", "\"class_id\": 99", "names a row of"),
            ("\\\"kind\\\": \\\"checkerboard\\\"", "\\\"kind\\\": \\\"chequer\\\"", "the block cannot be read"),
            ("\"people\": true", "\"people\": true, \"people\": false", "not a file"),
        })
        {
            var at = good.IndexOf(from, StringComparison.Ordinal);
            Assert.True(at >= 0, from);
            var bad = string.Concat(good.AsSpan(0, at), to, good.AsSpan(at + from.Length));
            var refused = await Assert.ThrowsAsync<FileRefusedException>(() => here.Get<Incoming>().Read(Encoding.UTF8.GetBytes(bad)));
            Assert.Contains(said, refused.Message, StringComparison.Ordinal);
        }

        foreach (var odd in new[] { "", "{", "[]", "null", "{}", good[..(good.Length / 2)], "\"\\ud800\"", new string('[', 5000) })
        {
            await Assert.ThrowsAsync<FileRefusedException>(() => here.Get<Incoming>().Read(Encoding.UTF8.GetBytes(odd)));
        }

        Assert.Equal(guildBefore, Text(here.Get<FileWriter>().Guild(people: true)));
    }

    [Fact]
    public void Schema_DescribesTheFile()
    {
        var schema = JsonNode.Parse(FileSchema.Json(here.Get<Database>()))!;
        var described = schema["properties"]!["tables"]!["properties"]!.AsObject();
        var file = JsonNode.Parse(here.Get<FileWriter>().Guild(people: true))!;
        Assert.Equal(file.AsObject().Select(pair => pair.Key).Order(StringComparer.Ordinal), schema["properties"]!.AsObject().Select(pair => pair.Key).Order(StringComparer.Ordinal));
        Assert.Equal(file["tables"]!.AsObject().Select(table => table.Key), described.Select(table => table.Key));
        Assert.Equal("A length in ticks.", described["fabric"]!["items"]!["properties"]!["usable_width_ticks"]!["description"]!.GetValue<string>());
    }

    // A class with everything that can happen to one.
    private static async Task<long> SettledClass(GuildHost guild)
    {
        var classId = await SampleGuild.Fill(guild, students: 4);
        var planning = guild.Get<ClassPlanning>();
        await planning.SetAside(classId);
        await guild.Get<ClassStore>().MarkPrinted(classId);
        var plan = (await planning.Plan(classId))!;
        var kit = plan.Kits[0];
        var first = Guid.NewGuid();
        await guild.Get<PackingStore>().Mark(
        [
            (classId, new NewMark(first, kit.KitId, KitMark.WholeKit, KitState.Checked, "Helping Hand")),
            (classId, new NewMark(Guid.NewGuid(), kit.KitId, KitMark.WholeKit, KitState.Checked, "Helping Hand")),
            (classId, new NewMark(Guid.NewGuid(), kit.KitId, KitMark.WholeKit, KitState.Checked, "Helping Hand", first)),
        ]);
        var fabric = plan.Fabrics[0];
        var settling = guild.Get<SettlingStore>();
        await settling.AddPurchase(new FabricPurchase { ClassId = classId, FabricId = fabric.FabricId, Length = Length.FromYards(2m), Paid = 19m });
        await settling.AddLeftover(new Leftover { ClassId = classId, FabricId = fabric.FabricId, Width = Length.FromInches(40), Length = Length.FromInches(9), ToShelf = true });
        await settling.AddGiven(new GivenOut { ClassId = classId, FabricId = fabric.FabricId, Length = Length.FromInches(3) });
        await guild.Get<ShortageStore>().Report(new Shortage { Id = Guid.NewGuid(), ClassId = classId, KitId = kit.KitId, Letter = "A", FabricId = fabric.FabricId, Width = Length.FromInches(2), Height = Length.FromInches(2), Count = 1, Who = "Helping Hand" });
        return classId;
    }

    // The moment of saving is the file's own.
    private static string Text(byte[] file)
    {
        var lines = Encoding.UTF8.GetString(file).Split('\n');
        return string.Join('\n', lines.Where(line => !line.StartsWith("  \"made\":", StringComparison.Ordinal)));
    }

    public void Dispose()
    {
        here.Dispose();
        there.Dispose();
    }
}
