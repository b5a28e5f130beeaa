using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Classes;

/// <summary>Two classes never count on the same cloth, from the moment that one of them is planned.</summary>
public sealed class ShelfClaimTests : IDisposable
{
    private readonly GuildHost guild = new();

    [Fact]
    public async Task Plan_OfASecondClass_DoesNotCountOnClothThatTheFirstPlansWith()
    {
        var (one, other) = await TwoClassesThatShareABolt();
        var planning = guild.Get<ClassPlanning>();
        var first = (await planning.Plan(one))!;
        var second = (await planning.Plan(other))!;
        var shelf = guild.Get<ShelfStore>().All().ToDictionary(piece => piece.Id, piece => piece.Count);
        var claims = guild.Get<ShelfClaimStore>().OfOpenClasses();
        Assert.Contains(claims, claim => claim.ClassId == one);
        Assert.All(claims.GroupBy(claim => claim.ShelfPieceId), piece => Assert.True(piece.Sum(claim => claim.Count) <= shelf[piece.Key]));
        Assert.True(Cost(second) > Cost(first), "The second class has to buy what the first takes from the shelf.");

        // Looking again changes nothing.
        Assert.Equal(Cost(first), Cost((await planning.Plan(one))!));
        Assert.Equal(Cost(second), Cost((await planning.Plan(other))!));
    }

    [Fact]
    public async Task Cloth_OfAClassThatIsRemoved_IsFreeAgain()
    {
        var (one, other) = await TwoClassesThatShareABolt();
        var planning = guild.Get<ClassPlanning>();
        var first = (await planning.Plan(one))!;
        await planning.Plan(other);
        await guild.Get<ClassStore>().Remove(one);
        Assert.Equal(Cost(first), Cost((await planning.Plan(other))!));
        Assert.All(guild.Get<ShelfClaimStore>().OfOpenClasses(), claim => Assert.Equal(other, claim.ClassId));
    }

    [Fact]
    public async Task PutBack_OfAPrintedClass_HoldsItsClothAgain()
    {
        var (one, other) = await TwoClassesThatShareABolt();
        var planning = guild.Get<ClassPlanning>();
        var first = (await planning.Plan(one))!;
        await planning.SetAside(one);
        await guild.Get<ClassStore>().MarkPrinted(one);
        await guild.Get<ClassStore>().Remove(one);
        await guild.Get<ClassStore>().PutBack(one);
        Assert.Empty(await planning.HoldAgain(one));
        Assert.Equal(Cost(first), Cost((await planning.Plan(one))!));
        Assert.True(Cost((await planning.Plan(other))!) > Cost(first), "The other class counts on cloth that is held again.");
        Assert.NotEmpty(guild.Get<ShelfClaimStore>().OfClass(one));
    }

    [Fact]
    public async Task PutBack_OfAPrintedClassWhoseClothIsGone_IsPlannedAnewAndSaysSo()
    {
        var (one, other) = await TwoClassesThatShareABolt();
        var planning = guild.Get<ClassPlanning>();
        var first = (await planning.Plan(one))!;
        await planning.SetAside(one);
        await guild.Get<ClassStore>().MarkPrinted(one);
        await guild.Get<ClassStore>().Remove(one);
        var second = (await planning.Plan(other))!;
        await guild.Get<ClassStore>().PutBack(one);
        Assert.Contains("Linen ground", await planning.HoldAgain(one));
        var anew = (await planning.Plan(one))!;
        Assert.True(Cost(anew) > Cost(first), "It buys what the other class has now.");
        Assert.Equal(Cost(second), Cost((await planning.Plan(other))!));
        var shelf = guild.Get<ShelfStore>().All().ToDictionary(piece => piece.Id, piece => piece.Count);
        Assert.All(guild.Get<ShelfClaimStore>().OfOpenClasses().GroupBy(claim => claim.ShelfPieceId), piece => Assert.True(piece.Sum(claim => claim.Count) <= shelf[piece.Key]));
    }

    [Fact]
    public async Task SetAside_SomeOfSeveralAlike_LeavesTheOtherClassItsOwn()
    {
        var (one, other) = await TwoClassesThatShareABolt();
        var planning = guild.Get<ClassPlanning>();
        await planning.Plan(one);
        var before = (await planning.Plan(other))!;
        await planning.SetAside(one);
        await guild.Get<ClassStore>().MarkPrinted(one);
        Assert.Equal(Cost(before), Cost((await planning.Plan(other))!));
        Assert.All(guild.Get<ShelfClaimStore>().OfClass(other), claim => Assert.DoesNotContain(guild.Get<ShelfStore>().All(), piece => piece.Id == claim.ShelfPieceId && piece.ReservedClassId == one));
    }

    [Fact]
    public async Task Replace_WithMoreThanThereIs_StoresNothing()
    {
        var (one, other) = await TwoClassesThatShareABolt();
        var claims = guild.Get<ShelfClaimStore>();
        var piece = guild.Get<ShelfStore>().All()[0];
        await claims.Replace(one, new Dictionary<long, int> { [piece.Id] = piece.Count });
        await Assert.ThrowsAsync<ClothTakenException>(() => claims.Replace(other, new Dictionary<long, int> { [piece.Id] = 1 }));
        Assert.Empty(claims.OfClass(other));
        Assert.Single(claims.OfClass(one));
    }

    [Fact]
    public async Task Plan_ManyTimesAtOnce_NeverClaimsMoreThanThereIs()
    {
        var (one, other) = await TwoClassesThatShareABolt();
        var planning = guild.Get<ClassPlanning>();
        await Task.WhenAll(Enumerable.Range(0, 12).Select(turn => Task.Run(() => planning.Plan(turn % 2 == 0 ? one : other))));
        var shelf = guild.Get<ShelfStore>().All().ToDictionary(piece => piece.Id, piece => piece.Count);
        Assert.All(guild.Get<ShelfClaimStore>().OfOpenClasses().GroupBy(claim => claim.ShelfPieceId), piece => Assert.True(piece.Sum(claim => claim.Count) <= shelf[piece.Key]));
    }

    private async Task<(long One, long Other)> TwoClassesThatShareABolt()
    {
        var one = await SampleGuild.Fill(guild);
        var linen = guild.Get<FabricStore>().All().Single(fabric => fabric.Name == "Linen ground");
        await guild.Get<ShelfStore>().Add(new ShelfPiece { FabricId = linen.Id, Kind = "length", Width = linen.UsableWidth, Length = Length.FromInches(18), Count = 2 });
        return (one, await guild.Get<ClassStore>().Copy(one, "Corner Star again", withRoster: true));
    }

    private static decimal Cost(ClassPlan plan) => plan.Fabrics.Sum(fabric => fabric.Plan!.Buy.Cost);

    public void Dispose() => guild.Dispose();
}
