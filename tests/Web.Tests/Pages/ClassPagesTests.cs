using System.Net;
using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Pages;

public sealed class ClassPagesTests : IDisposable
{
    private readonly GuildHost guild = new();
    private readonly PageClient pages;

    public ClassPagesTests() => pages = new PageClient(guild);

    [Fact]
    public async Task Roster_LineWithoutAName_IsNamedAndNothingIsStored()
    {
        var classId = await SampleGuild.Fill(guild, students: 2);
        var lines = "Ulla Brand; ulla@example.org; Dusk\n; 555 0199; Harvest\nVera Moss; ; Midnight";
        var (status, text) = await pages.Post($"/classes/{classId}/roster", $"/classes/{classId}/roster?handler=Paste", ("Lines", lines));
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("Line 2: “; 555 0199; Harvest” has no name.", text, StringComparison.Ordinal);
        Assert.Contains("Line 3: Vera Moss asks for the colourway “Midnight”", text, StringComparison.Ordinal);
        Assert.Contains("Dusk, Harvest", text, StringComparison.Ordinal);
        Assert.Contains(lines, text, StringComparison.Ordinal);
        Assert.Equal(2, guild.Get<RosterStore>().ForClass(classId).Count);
    }

    [Fact]
    public async Task Roster_Lines_AreStoredInOrderWithTheirKits()
    {
        var classId = await SampleGuild.Fill(guild, students: 0);
        var (status, _) = await pages.Post($"/classes/{classId}/roster", $"/classes/{classId}/roster?handler=Paste",
            ("Lines", "Ulla Brand; ulla@example.org; dusk; brings a mat; left-handed\nŻaneta Nowak\tzaneta@example.org\tHarvest\n\nXu Wei, , , large print, waiting"));
        Assert.Equal(HttpStatusCode.Redirect, status);
        var students = guild.Get<RosterStore>().ForClass(classId);
        Assert.Equal(["Ulla Brand", "Żaneta Nowak", "Xu Wei"], students.Select(student => student.Name));
        Assert.True(students[0] is { LeftHanded: true, Note: "brings a mat", ColourwayId: not null });
        Assert.True(students[2] is { LargePrint: true, Waiting: true });
        Assert.Equal(2, guild.Get<KitStore>().ForClass(classId).Count(kit => kit.Role == "student"));
    }

    [Fact]
    public async Task Roster_OfTwoThousand_IsTakenInOneGo()
    {
        var classId = await SampleGuild.Fill(guild, students: 0);
        var lines = string.Join('\n', Enumerable.Range(1, 2001).Select(i => $"Student {i}; student{i}@example.org; {(i % 2 == 0 ? "Dusk" : "Harvest")}"));
        var address = $"/classes/{classId}/roster";
        var (_, refused) = await pages.Post(address, $"{address}?handler=Paste", ("Lines", lines));
        Assert.Contains("Line 2001: a class takes 2,000 students.", refused, StringComparison.Ordinal);
        Assert.Empty(guild.Get<RosterStore>().ForClass(classId));

        var (status, _) = await pages.Post(address, $"{address}?handler=Paste", ("Lines", lines[..lines.LastIndexOf('\n')]));
        Assert.Equal(HttpStatusCode.Redirect, status);
        Assert.Equal(2000, guild.Get<RosterStore>().ForClass(classId).Count);
        Assert.Equal(Enumerable.Range(1, 2002), guild.Get<KitStore>().ForClass(classId).Select(kit => kit.Number));
    }

    [Fact]
    public async Task Roster_NameThatOccursTwice_IsPointedOutUnlessMeant()
    {
        var classId = await SampleGuild.Fill(guild, students: 1);
        var address = $"/classes/{classId}/roster";
        var (_, refused) = await pages.Post(address, $"{address}?handler=Paste", ("Lines", "ada lindqvist"));
        Assert.Contains("is on the roster already", refused, StringComparison.Ordinal);
        Assert.Single(guild.Get<RosterStore>().ForClass(classId));
        var (status, _) = await pages.Post(address, $"{address}?handler=Paste", ("Lines", "ada lindqvist"), ("DuplicatesMeant", "true"));
        Assert.Equal(HttpStatusCode.Redirect, status);
        Assert.Equal(2, guild.Get<RosterStore>().ForClass(classId).Count);
    }

    [Fact]
    public async Task Student_SavedFromAStalePage_IsToldBothAndNothingIsStored()
    {
        var classId = await SampleGuild.Fill(guild, students: 1);
        var roster = guild.Get<RosterStore>();
        var student = roster.ForClass(classId)[0];
        await roster.Save(student with { Note = "changed by another helper" });
        var (status, text) = await pages.Post($"/classes/{classId}/roster/{student.Id}", $"/classes/{classId}/roster/{student.Id}",
            ("Form.Name", "Mine"), ("Form.Note", "what I typed"), ("Form.Version", $"{student.Version}"));
        Assert.Equal(HttpStatusCode.Conflict, status);
        Assert.Contains("changed by another helper", text, StringComparison.Ordinal);
        Assert.Contains("what I typed", text, StringComparison.Ordinal);
        Assert.Equal("changed by another helper", roster.Find(classId, student.Id)!.Note);
    }

    [Fact]
    public async Task Roster_PastedWithoutContacts_TakesTheColourwayAsTheColourway()
    {
        var classId = await SampleGuild.Fill(guild, students: 0);
        var way = guild.Get<ColourwayStore>().ForClass(classId)[0];
        var address = $"/classes/{classId}/roster";
        await pages.Post(address, $"{address}?handler=Paste", ("Lines", $"Una Berg, {way.Name}\nVera Holm, vera@example.org, {way.Name}\nWanda Lis, {way.Name}, by the window"));
        var students = guild.Get<RosterStore>().ForClass(classId);
        Assert.Equal([("Una Berg", ""), ("Vera Holm", "vera@example.org"), ("Wanda Lis", "")], students.Select(student => (student.Name, student.Contact)));
        Assert.All(students, student => Assert.Equal(way.Id, student.ColourwayId));
        Assert.Equal("by the window", students[2].Note);
    }

    [Fact]
    public async Task Student_TakenOffTheRoster_CanBePutBack()
    {
        var classId = await SampleGuild.Fill(guild, students: 1);
        var student = guild.Get<RosterStore>().ForClass(classId)[0];
        var (status, _) = await pages.Post($"/classes/{classId}/roster/{student.Id}", $"/classes/{classId}/roster/{student.Id}?handler=Remove");
        Assert.Equal(HttpStatusCode.Redirect, status);
        var undo = $"/classes/{classId}/roster?handler=PutBack&id={student.Id}";
        Assert.Contains(WebUtility.HtmlEncode(undo), await pages.Get($"/classes/{classId}/roster"), StringComparison.Ordinal);
        Assert.Empty(guild.Get<RosterStore>().ForClass(classId));
        await pages.Post($"/classes/{classId}/roster", undo);
        Assert.Equal(student.Name, Assert.Single(guild.Get<RosterStore>().ForClass(classId)).Name);
    }

    [Fact]
    public async Task Colourway_ThatLacksALetter_IsNamedAndNothingIsStored()
    {
        var classId = await SampleGuild.Fill(guild, students: 1);
        var fabric = guild.Get<FabricStore>().All()[0];
        var (status, text) = await pages.Post($"/classes/{classId}/fabrics/new", $"/classes/{classId}/fabrics/new",
            ("Name", "Half a colourway"), ("Fabric[A]", $"{fabric.Id}"), ("Fabric[B]", ""), ("Fabric[C]", "987654"));
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("Fabric B (points) has no fabric in this colourway", text, StringComparison.Ordinal);
        Assert.Contains("Fabric C (middle) has no fabric in this colourway", text, StringComparison.Ordinal);
        Assert.Contains("Half a colourway", text, StringComparison.Ordinal);
        Assert.Contains($"value=\"{fabric.Id}\" selected", text, StringComparison.Ordinal);
        Assert.Equal(2, guild.Get<ColourwayStore>().ForClass(classId).Count);
    }

    [Fact]
    public async Task Fabrics_TypedBesideTheirLetters_GoOnTheShelfAndTheOnlyColourwayToEverybodySeated()
    {
        var classId = await guild.Get<ClassStore>().Add(new ClassRecord
        {
            Title = "Corner Star cushion", BlockName = "Corner Star", BlockJson = SampleGuild.StarJson, Units = "inches", Paper = "letter", Currency = "USD",
            SeamAllowance = Length.FromInches(0, 1, 4), CuttingStep = Length.FromInches(0, 1, 8),
        });
        await guild.Get<RosterStore>().Add(classId, [new Student { Name = "Ada" }, new Student { Name = "Bea" }, new Student { Name = "Cleo", Waiting = true }]);
        var address = $"/classes/{classId}/fabrics/new";
        Assert.Contains("name=\"New[B].Name\" value=\"Points\"", await pages.Get(address), StringComparison.Ordinal);

        (string, string)[] typed = [("Name", "Only one"), ("New[A].Name", "Linen"), ("New[A].Price", "9.50"), ("New[B].Name", "Indigo"), ("New[B].Price", "a lot"), ("New[C].Name", " "), ("New[C].Price", "")];
        var (status, text) = await pages.Post(address, address, typed);
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("The price is “a lot”", WebUtility.HtmlDecode(text), StringComparison.Ordinal);
        Assert.Contains("Fabric C (middle) has no fabric in this colourway", text, StringComparison.Ordinal);
        Assert.Contains("name=\"New[A].Name\" value=\"Linen\"", text, StringComparison.Ordinal);
        Assert.Empty(guild.Get<FabricStore>().All());
        Assert.Empty(guild.Get<ColourwayStore>().ForClass(classId));

        (status, text) = await pages.Post(address, address, ("Name", "Only one"), ("New[A].Name", "Linen"), ("New[A].Price", "9.50"), ("New[B].Name", "Indigo"), ("New[B].Price", "12"), ("New[C].Name", "Weld"), ("New[C].Price", "0"));
        Assert.True(status == HttpStatusCode.Redirect, text);
        var shelf = guild.Get<FabricStore>().All().ToDictionary(fabric => fabric.Name);
        Assert.Equal([("Indigo", 12m), ("Linen", 9.5m), ("Weld", 0m)], shelf.Values.Select(fabric => (fabric.Name, fabric.Price)).Order());
        Assert.Equal(3, shelf.Values.Select(fabric => fabric.Colour).Distinct().Count());
        var only = Assert.Single(guild.Get<ColourwayStore>().ForClass(classId));
        Assert.Equal([("A", shelf["Linen"].Id), ("B", shelf["Indigo"].Id), ("C", shelf["Weld"].Id)], only.FabricOfLetter.Select(pair => (pair.Key, pair.Value)).Order());
        Assert.Equal([only.Id, only.Id, null], guild.Get<RosterStore>().ForClass(classId).Select(student => student.ColourwayId));

        // A second one is somebody's choice: whoever has one keeps it.
        await guild.Get<RosterStore>().Add(classId, [new Student { Name = "Dora" }]);
        (status, text) = await pages.Post(address, address, ("Name", "Another"), ("Fabric[A]", $"{shelf["Weld"].Id}"), ("Fabric[B]", $"{shelf["Linen"].Id}"), ("Fabric[C]", $"{shelf["Indigo"].Id}"));
        Assert.True(status == HttpStatusCode.Redirect, text);
        Assert.Equal([only.Id, only.Id, null, null], guild.Get<RosterStore>().ForClass(classId).Select(student => student.ColourwayId));
    }

    [Fact]
    public async Task Class_FormWithMistakes_NamesEachFieldAndStoresNothing()
    {
        await SampleGuild.Fill(guild);
        var before = guild.Get<ClassStore>().All().Count;
        var (status, text) = await pages.Post("/classes/new", "/classes/new",
            ("Form.Title", ""), ("Form.Units", "inches"), ("Form.Paper", "letter"), ("Form.Currency", "USD"), ("Form.HeldOn", "13.02.2027"), ("Form.SeamAllowance", "a bit"),
            ("Form.CuttingStep", "1/8"), ("Form.BlocksPerKit", "0"), ("Form.Layers", "99"), ("Form.LongestStrip", "24"), ("Form.SquaringUp", "0"), ("Form.SpareKits", "1"),
            ("Form.SampleKits", "1"), ("Form.SparePercent", "-3"), ("Form.MiscutPercent", "40"), ("Form.PromisePercent", "100"));
        Assert.Equal(HttpStatusCode.OK, status);
        foreach (var said in new[] { "The title is missing", "“13.02.2027”", "a bit", "Blocks in a kit is “0”", "Layers cut at once is “99”", "Spare pieces is -3", "The miscut share is 40: it must be from 0 to 25", "it must be from 0 to 99.99", "Choose the block" })
        {
            Assert.Contains(said, text, StringComparison.Ordinal);
        }

        Assert.Equal(before, guild.Get<ClassStore>().All().Count);
    }

    [Theory]
    [InlineData("Form.LongestStrip", "2.4", "The longest ruler is 2.4: it must be 6″ at least")]
    [InlineData("Form.LongestStrip", "24 yd", "The longest ruler is 24 yd: it may be 120″ at most")]
    [InlineData("Form.SquaringUp", "10", "The squaring-up allowance is 10: it may be 6″ at most")]
    [InlineData("Form.HeldOn", "0207-02-13", "“0207-02-13”: the year must be from 2000 to 2199")]
    [InlineData("Form.CuttingStep", "0.01", "The cutting step is 0.01 in; it must be at least 1/32″ or 0.5 mm")]
    public async Task Class_WithAFigureThatIsSurelyASlip_IsToldAtItsField(string field, string typed, string said)
    {
        var classId = await SampleGuild.Fill(guild);
        var before = guild.Get<ClassStore>().Find(classId)!;
        List<(string Name, string Value)> form =
        [
            ("Form.Title", "Sampler"), ("Form.Version", $"{before.Version}"), ("Form.Units", "inches"), ("Form.Paper", "letter"), ("Form.Currency", "USD"), ("Form.HeldOn", "2027-02-13"),
            ("Form.SeamAllowance", "1/4"), ("Form.CuttingStep", "1/8"), ("Form.BlocksPerKit", "1"), ("Form.Layers", "4"), ("Form.LongestStrip", "24"), ("Form.SquaringUp", "0"),
            ("Form.SpareKits", "1"), ("Form.SampleKits", "1"), ("Form.SparePercent", "0"), ("Form.PromisePercent", "95"),
        ];
        form[form.FindIndex(one => one.Name == field)] = (field, typed);
        var (status, text) = await pages.Post($"/classes/{classId}/change", $"/classes/{classId}/change", [.. form]);
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Matches($"data-valmsg-for=\"{field}\"[^>]*>[^<]*{System.Text.RegularExpressions.Regex.Escape(said)}", text);
        Assert.Equal(before, guild.Get<ClassStore>().Find(classId));
    }

    [Fact]
    public async Task Students_SpreadOverColourways_AreEven()
    {
        var classId = await SampleGuild.Fill(guild, students: 7);
        var roster = guild.Get<RosterStore>();
        await pages.Post($"/classes/{classId}/fabrics", $"/classes/{classId}/fabrics?handler=Spread", ("everybody", "true"));
        Assert.Equal([3, 4], roster.ForClass(classId).CountBy(student => student.ColourwayId!.Value).Select(pair => pair.Value).Order());
    }

    [Theory]
    [InlineData("/classes/999")]
    [InlineData("/classes/999/roster")]
    [InlineData("/classes/999/fabrics")]
    [InlineData("/blocks/999")]
    [InlineData("/shelf/fabrics/999")]
    [InlineData("/shelf/pieces/new?fabric=999")]
    public async Task Page_OfSomethingThatIsNotThere_SaysSo(string address)
    {
        using var answer = await pages.Http.GetAsync(new Uri(address, UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, answer.StatusCode);
        Assert.Contains("There is no such page", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    public void Dispose()
    {
        pages.Dispose();
        guild.Dispose();
    }
}
