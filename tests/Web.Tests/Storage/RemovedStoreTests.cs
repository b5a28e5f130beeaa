using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Storage;

public sealed class RemovedStoreTests : IDisposable
{
    private static readonly DateTimeOffset Day = new(2031, 4, 12, 9, 0, 0, TimeSpan.Zero);

    private readonly SetClock clock = new(Day);
    private readonly string folder = Directory.CreateTempSubdirectory("kitting-bee-removed-").FullName;
    private readonly Database database;
    private readonly RemovedStore removed;

    public RemovedStoreTests()
    {
        database = new Database(Path.Combine(folder, "guild.db"), clock);
        Migrations.Apply(database, folder);
        removed = new RemovedStore(database, clock);
    }

    [Fact]
    public async Task Removed_OfEveryKind_AreListed_AndComeBackWithinThirtyDays()
    {
        var (classId, student, way, fabric) = await Class();
        var block = await new BlockStore(database).Add(new StoredBlock { Name = "Typed", TypedLines = "A 4 squares 4 1/2" });
        var piece = await new ShelfStore(database).Add(new ShelfPiece { FabricId = fabric, Kind = "remnant", Width = Length.FromInches(9), Length = Length.FromInches(9) });
        await new RosterStore(database).Remove(classId, student);
        await new ColourwayStore(database).Remove(classId, way);
        await new ShelfStore(database).Remove(piece);
        await new BlockStore(database).Remove(block);
        Assert.Equal(["block Typed", "colourway Dusk", "piece remnant", "student Ada"], removed.All().Select(thing => $"{thing.Kind} {thing.Name}").Order(StringComparer.Ordinal));

        clock.Now = Day.AddDays(29.9);
        Assert.False(removed.IsAnythingOld());
        Assert.Equal(0, await removed.Purge());
        Assert.True(await new RosterStore(database).PutBack(classId, student));
        Assert.Equal("Ada", new RosterStore(database).Find(classId, student)!.Name);
        await new ClassStore(database).Remove(classId);
        Assert.Equal(["block", "class", "piece"], removed.All().Select(thing => thing.Kind).Order(StringComparer.Ordinal));
    }

    [Fact]
    public async Task Class_AfterThirtyDays_GoesWithAllThatIsItsOwn_AndTheShelfStays()
    {
        var (classId, _, _, fabric) = await Class();
        var kit = new KitStore(database).ForClass(classId)[0].Id;
        await new PackingStore(database).Mark([(classId, new NewMark(Guid.NewGuid(), kit, KitMark.WholeKit, KitState.Checked, "Ada")), (classId, new NewMark(Guid.NewGuid(), kit, KitMark.WholeKit, KitState.Checked, "Bo"))]);
        await new SettlingStore(database).AddLeftover(new Leftover { ClassId = classId, FabricId = fabric, Width = Length.FromInches(9), Length = Length.FromInches(9), ToShelf = true });
        await new ClassStore(database).Remove(classId);
        clock.Now = Day.AddDays(30);
        Assert.True(removed.IsAnythingOld());
        Assert.Equal(1, await removed.Purge());
        foreach (var table in new[] { "class", "student", "kit", "kit_mark", "kit_mark_same", "colourway", "colourway_fabric", "leftover" })
        {
            Assert.Equal(0, database.Read(session => session.Get<int>($"SELECT count(*) FROM {table}")));
        }

        Assert.Single(new ShelfStore(database).All());
        Assert.NotNull(new FabricStore(database).Find(fabric));
        Assert.False(removed.IsAnythingOld());
        Assert.Empty(database.Read(session => session.List<string>("SELECT \"table\" FROM pragma_foreign_key_check")));
    }

    [Fact]
    public async Task Purge_KeepsWhatAClassStillNeeds_AndForgetsWhoWasPackedFor()
    {
        var (classId, student, way, fabric) = await Class();
        var kit = new KitStore(database).ForClass(classId).Single(item => item.StudentId == student);
        await new PackingStore(database).Mark([(classId, new NewMark(Guid.NewGuid(), kit.Id, KitMark.WholeKit, KitState.Checked, "Bo"))]);
        await new RosterStore(database).Remove(classId, student);
        await new FabricStore(database).Remove(fabric);
        clock.Now = Day.AddDays(31);
        Assert.True(removed.IsAnythingOld());
        await removed.Purge();
        Assert.NotNull(new FabricStore(database).Find(fabric));
        Assert.Equal(fabric, new ColourwayStore(database).ForClass(classId).Single(item => item.Id == way).FabricOfLetter["A"]);
        Assert.Equal("Taken out", database.Read(session => session.Get<string>("SELECT name FROM student WHERE id = @student", new { student })));
        Assert.Equal(1, database.Read(session => session.Get<int>("SELECT count(*) FROM kit_mark")));
        Assert.False(removed.IsAnythingOld(), "Nothing is left to do, so that no copy is made at every start.");
        Assert.Empty(removed.All());
    }

    [Fact]
    public async Task Clock_SetBack_PurgesNothingAndStillListsIt()
    {
        var (classId, _, _, _) = await Class();
        await new ClassStore(database).Remove(classId);
        clock.Now = Day.AddYears(-2);
        Assert.False(removed.IsAnythingOld());
        Assert.Equal(0, await removed.Purge());
        Assert.Single(removed.All());
    }

    private async Task<(long ClassId, long Student, long Way, long Fabric)> Class()
    {
        var fabric = await new FabricStore(database).Add(new Fabric { Name = "Oat", UsableWidth = Length.FromInches(40), Increment = Length.FromInches(9) });
        var classId = await new ClassStore(database).Add(new ClassRecord { Title = "Evening", BlockName = "Typed", TypedLines = "A 4 squares 4 1/2", MethodsJson = "{}" });
        var way = await new ColourwayStore(database).Add(new Colourway { ClassId = classId, Name = "Dusk", FabricOfLetter = new Dictionary<string, long> { ["A"] = fabric } });
        var students = await new RosterStore(database).Add(classId, [new Student { Name = "Ada", Contact = "ada@example.org", ColourwayId = way }]);
        return (classId, students[0], way, fabric);
    }

    public void Dispose()
    {
        database.Dispose();
        Directory.Delete(folder, recursive: true);
    }
}
