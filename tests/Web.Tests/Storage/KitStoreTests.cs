using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Storage;

public sealed class KitStoreTests
{
    [Fact]
    public async Task Kits_FollowTheRoster_StudentsFirst()
    {
        using var guild = new TemporaryGuild();
        var (classId, roster, kits) = await Class(guild);
        await roster.Add(classId, [new Student { Name = "Ada" }, new Student { Name = "Bo", Waiting = true }, new Student { Name = "Cy" }]);
        Assert.Equal(["1 Ada", "2 Cy", "3 Spare", "4 Teacher's sample"], Shown(kits, classId));
        Assert.Equal(4, kits.ForClass(classId).Select(kit => kit.Code).Distinct().Count());
        Assert.All(kits.ForClass(classId), kit => Assert.Matches("^[23456789BCDFGHJKMNPQRSTVWXZ]{6}$", kit.Code));
    }

    [Fact]
    public async Task Kits_OncePrinted_KeepTheirNumbers()
    {
        using var guild = new TemporaryGuild();
        var (classId, roster, kits) = await Class(guild);
        var ids = await roster.Add(classId, [new Student { Name = "Ada" }, new Student { Name = "Bo" }]);
        await new ClassStore(guild.Database).MarkPrinted(classId);
        await roster.Remove(classId, ids[0]);
        await roster.Add(classId, [new Student { Name = "Cy" }]);
        Assert.Equal(["2 Bo", "3 Spare", "4 Teacher's sample", "5 Cy"], Shown(kits, classId));
    }

    [Fact]
    public async Task Kit_OfAStudentWhoComesBack_IsTheSameBag()
    {
        using var guild = new TemporaryGuild();
        var (classId, roster, kits) = await Class(guild);
        var ids = await roster.Add(classId, [new Student { Name = "Ada" }]);
        await new ClassStore(guild.Database).MarkPrinted(classId);
        var before = kits.ForClass(classId).Single(kit => kit.StudentId == ids[0]);
        await roster.Remove(classId, ids[0]);
        Assert.DoesNotContain(kits.ForClass(classId), kit => kit.Id == before.Id);
        await roster.PutBack(classId, ids[0]);
        Assert.Equal(before, kits.ForClass(classId).Single(kit => kit.StudentId == ids[0]));
        Assert.Equal(before, kits.FindByCode($" {before.Code.ToLowerInvariant()} "));
    }

    [Fact]
    public async Task Kits_WithoutARoster_AreOpenToClaim()
    {
        using var guild = new TemporaryGuild();
        var (classId, roster, kits) = await Class(guild);
        await roster.Add(classId, [new Student { Name = "Ada" }]);
        var classes = new ClassStore(guild.Database);
        Assert.Equal(Saved.Done, await classes.Save(classes.Find(classId)! with { KitsOnly = 3, SpareKits = 0 }));
        Assert.Equal(["1 To be claimed", "2 To be claimed", "3 To be claimed", "4 Teacher's sample"], Shown(kits, classId));
        Assert.Equal(Saved.Done, await classes.Save(classes.Find(classId)! with { KitsOnly = null }));
        Assert.Equal(["1 Ada", "2 Teacher's sample"], Shown(kits, classId));
    }

    [Fact]
    public async Task Kits_OfAnotherClass_AreLeftAlone()
    {
        using var guild = new TemporaryGuild();
        var (one, roster, kits) = await Class(guild);
        var (two, _, _) = await Class(guild);
        await roster.Add(one, [new Student { Name = "Ada" }]);
        Assert.Equal(["1 Spare", "2 Teacher's sample"], Shown(kits, two));
    }

    [Fact]
    public async Task Kits_WithoutAStudent_TakeTheLeastUsedColourway()
    {
        using var guild = new TemporaryGuild();
        var (classId, _, kits) = await Class(guild);
        var ways = new ColourwayStore(guild.Database);
        var first = await ways.Add(new Colourway { ClassId = classId, Name = "First" });
        Assert.All(kits.ForClass(classId), kit => Assert.Equal(first, kit.ColourwayId));
        await ways.Remove(classId, first);
        Assert.All(kits.ForClass(classId), kit => Assert.Null(kit.ColourwayId));
        var (a, b) = (await ways.Add(new Colourway { ClassId = classId, Name = "A" }), await ways.Add(new Colourway { ClassId = classId, Name = "B" }));
        Assert.All(kits.ForClass(classId), kit => Assert.Equal(a, kit.ColourwayId));
        Assert.True(await kits.ChooseColourway(classId, kits.ForClass(classId)[0].Id, b));
        Assert.Equal(b, kits.ForClass(classId)[0].ColourwayId);
    }

    private static string[] Shown(KitStore kits, long classId) => [.. kits.ForClass(classId).Select(kit => $"{kit.Number} {kit.For}")];

    private static async Task<(long ClassId, RosterStore Roster, KitStore Kits)> Class(TemporaryGuild guild)
    {
        var id = await new ClassStore(guild.Database).Add(new ClassRecord { Title = "Class", BlockName = "B", BlockJson = "{}", SpareKits = 1, SampleKits = 1 });
        return (id, new RosterStore(guild.Database), new KitStore(guild.Database));
    }
}
