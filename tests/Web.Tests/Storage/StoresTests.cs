using CsCheck;
using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;
using Microsoft.Data.Sqlite;

namespace KittingBee.Web.Tests.Storage;

public sealed class StoresTests
{
    private static Fabric Oat => new()
    {
        Name = "Oat", Colour = "#efe6d6", UsableWidth = Length.FromInches(41, 7, 8), Price = 9.85m, Increment = Length.FromInches(4, 1, 2), Minimum = Length.FromInches(9),
        Directional = true, ShrinkageAlong = 3.25m, ShrinkageAcross = 1m, SupplierNote = "stall",
    };

    [Fact]
    public async Task Fabric_IsReadBackExactly()
    {
        using var guild = new TemporaryGuild();
        var store = new FabricStore(guild.Database);
        var id = await store.Add(Oat);
        Assert.Equal(Oat with { Id = id, Version = 1 }, store.Find(id));
    }

    [Fact]
    public void LengthsAndMoney_AnyValue_AreReadBackExactly()
    {
        using var guild = new TemporaryGuild();
        Gen.Select(Gen.Long, Gen.Long[-99_999_999_999, 99_999_999_999]).Sample(
            (ticks, cents) =>
            {
                var (length, money) = guild.Database.Read(session => (
                    session.Get<Length>("SELECT @value", new { value = Length.FromTicks(ticks) }),
                    session.Get<decimal>("SELECT @value", new { value = cents / 100m })));
                return length.Ticks == ticks && money == cents / 100m;
            },
            iter: 2_000,
            threads: 1);
    }

    [Fact]
    public async Task Money_FinerThanAHundredth_IsRefusedNotRounded()
    {
        using var guild = new TemporaryGuild();
        await Assert.ThrowsAsync<ArgumentException>(() => new FabricStore(guild.Database).Add(Oat with { Price = 9.855m }));
        Assert.Equal(0, guild.Scalar<int>("SELECT count(*) FROM fabric"));
    }

    [Fact]
    public async Task Fabric_SavedFromAStaleVersion_ChangesNothing()
    {
        using var guild = new TemporaryGuild();
        var store = new FabricStore(guild.Database);
        var id = await store.Add(Oat);
        var mine = store.Find(id)!;
        Assert.Equal(Saved.Done, await store.Save(mine with { Name = "Hers" }));
        Assert.Equal(Saved.Stale, await store.Save(mine with { Name = "Mine" }));
        Assert.Equal("Hers", store.Find(id)!.Name);
        await store.Remove(id);
        Assert.Equal(Saved.Gone, await store.Save(store.Find(id)! with { Name = "Late" }));
    }

    [Fact]
    public async Task Fabric_Removed_ComesBackWhole()
    {
        using var guild = new TemporaryGuild();
        var store = new FabricStore(guild.Database);
        var id = await store.Add(Oat);
        Assert.True(await store.Remove(id));
        Assert.Empty(store.All());
        Assert.False(await store.Remove(id));
        Assert.True(await store.PutBack(id));
        Assert.Equal("Oat", Assert.Single(store.All()).Name);
    }

    [Fact]
    public async Task Write_ThatFails_LeavesNothingBehind()
    {
        using var guild = new TemporaryGuild();
        await Assert.ThrowsAsync<SqliteException>(() => guild.Database.Write(session =>
        {
            session.Run("INSERT INTO guild (id, name, units, paper, currency) VALUES (1, 'Half', 'inches', 'letter', 'USD')");
            return session.Run("INSERT INTO colourway (class_id, name) VALUES (999, 'nowhere')");
        }));
        Assert.Equal(0, guild.Scalar<int>("SELECT count(*) FROM guild"));
    }

    [Fact]
    public async Task Writers_ManyAtOnce_AllGetThrough()
    {
        using var guild = new TemporaryGuild();
        var store = new FabricStore(guild.Database);
        await Task.WhenAll(Enumerable.Range(0, 100).Select(i => Task.Run(() => store.Add(Oat with { Name = $"Fabric {i}" }))));
        Assert.Equal(100, store.All().Select(fabric => fabric.Name).Distinct().Count());
    }

    [Fact]
    public async Task Reserve_SomeOfSeveralAlike_LeavesTheRestFree()
    {
        using var guild = new TemporaryGuild();
        var fabric = await new FabricStore(guild.Database).Add(Oat);
        var classId = await new ClassStore(guild.Database).Add(new ClassRecord { Title = "One", BlockName = "B", BlockJson = "{}" });
        var other = await new ClassStore(guild.Database).Add(new ClassRecord { Title = "Other", BlockName = "B", BlockJson = "{}" });
        var shelf = new ShelfStore(guild.Database);
        var id = await shelf.Add(new ShelfPiece { FabricId = fabric, Width = Length.FromInches(18), Length = Length.FromInches(21), Count = 5 });

        Assert.Equal(1, await shelf.Reserve(classId, new Dictionary<long, int> { [id] = 2 }));
        Assert.Equal(5, shelf.ForClass(classId, [fabric]).Sum(piece => piece.Count));
        Assert.Equal(3, shelf.ForClass(other, [fabric]).Sum(piece => piece.Count));
        Assert.Equal(0, await shelf.Reserve(other, new Dictionary<long, int> { [id] = 1 }));

        await new ClassStore(guild.Database).Remove(classId);
        Assert.Equal(5, shelf.ForClass(other, [fabric]).Sum(piece => piece.Count));
    }
}
