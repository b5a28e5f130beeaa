using System.Net;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Pages;

public sealed class ShoppingPagesTests : IDisposable
{
    private readonly GuildHost guild = new();
    private readonly PageClient pages;

    public ShoppingPagesTests() => pages = new PageClient(guild);

    [Fact]
    public async Task List_ShowsEachFabricWithTheFiguresOfThePlan()
    {
        var classId = await SampleGuild.Fill(guild);
        var plan = (await guild.Get<ClassPlanning>().Plan(classId))!;
        var text = WebUtility.HtmlDecode(await pages.Get($"/classes/{classId}/shopping"));
        foreach (var fabric in plan.Fabrics.Where(fabric => fabric.Plan!.Buy.Length.IsPositive))
        {
            Assert.Contains(fabric.Name, text, StringComparison.Ordinal);
            Assert.Contains(plan.Habits.ShowYardage(fabric.Plan!.Buy.Length), text, StringComparison.Ordinal);
        }

        Assert.Contains(MoneyText.Write(plan.Shopping().Total, "USD"), text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Tick_StandsUntilTheClassNeedsMore()
    {
        var classId = await SampleGuild.Fill(guild);
        var address = $"/classes/{classId}/shopping";
        var fabric = (await guild.Get<ClassPlanning>().Plan(classId))!.Fabrics.First(fabric => fabric.Plan!.Buy.Length.IsPositive);
        var (status, _) = await pages.Post(address, $"{address}?handler=Tick&fabricId={fabric.FabricId}&ticked=true");
        Assert.Equal(HttpStatusCode.Redirect, status);
        Assert.Contains("1 of", await pages.Get(address), StringComparison.Ordinal);

        var way = guild.Get<ColourwayStore>().ForClass(classId).First(way => way.FabricOfLetter.Values.Contains(fabric.FabricId));
        await guild.Get<RosterStore>().Add(classId, [.. Enumerable.Range(0, 30).Select(index => new Student { Name = $"Late {index}", ColourwayId = way.Id })]);
        Assert.Contains("0 of", await pages.Get(address), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("half a bolt", "9.50", "half a bolt")]
    [InlineData("-1 yd", "9.50", "-1 yd")]
    [InlineData("1 yd", "-3", "-3")]
    [InlineData("1 yd", "a lot", "“a lot”")]
    public async Task Bought_WithAMistake_KeepsWhatWasTypedAndStoresNothing(string length, string paid, string said)
    {
        var classId = await SampleGuild.Fill(guild);
        var fabric = (await guild.Get<ClassPlanning>().Plan(classId))!.Fabrics.First(fabric => fabric.Plan!.Buy.Length.IsPositive);
        var address = $"/classes/{classId}/shopping";
        var (status, text) = await pages.Post(address, $"{address}?handler=Bought", ("Form.FabricId", $"{fabric.FabricId}"), ("Form.Length", length), ("Form.Paid", paid));
        Assert.Equal(HttpStatusCode.BadRequest, status);
        Assert.Contains(said, text, StringComparison.Ordinal);
        Assert.Contains($"value=\"{length}\"", text, StringComparison.Ordinal);
        Assert.Contains($"value=\"{paid}\"", text, StringComparison.Ordinal);
        Assert.Empty(guild.Get<SettlingStore>().Purchases(classId));
    }

    [Fact]
    public async Task Bought_ForTwoClasses_IsSharedToTheCent()
    {
        var one = await SampleGuild.Fill(guild);
        var other = await guild.Get<ClassStore>().Copy(one, "The same again", withRoster: true);
        var planning = guild.Get<ClassPlanning>();
        var fabric = (await planning.Plan(one))!.Fabrics.First(fabric => fabric.Name == "Linen ground");
        var needs = new[] { fabric.Plan!.Buy.Length, (await planning.Plan(other))!.Fabric(fabric.FabricId).Plan!.Buy.Length };
        var bought = needs[0] + needs[1] + Length.FromInches(9);
        var address = $"/shopping?class={one}&class={other}";
        var (status, _) = await pages.Post(address, $"{address}&handler=Bought", ("Form.FabricId", $"{fabric.FabricId}"), ("Form.Length", FormattableString.Invariant($"{bought.Inches} in")), ("Form.Paid", "31.07"));
        Assert.Equal(HttpStatusCode.Redirect, status);
        var purchases = new[] { one, other }.SelectMany(id => guild.Get<SettlingStore>().Purchases(id)).ToList();
        Assert.Equal([needs[0], needs[1] + Length.FromInches(9)], purchases.Select(purchase => purchase.Length));
        Assert.Equal(31.07m, purchases.Sum(purchase => purchase.Paid));
    }

    [Fact]
    public async Task Bought_LessThanTwoClassesNeed_IsTakenDownAndSaysWhoGoesShort()
    {
        var one = await SampleGuild.Fill(guild);
        var other = await guild.Get<ClassStore>().Copy(one, "The same again", withRoster: true);
        var fabric = (await guild.Get<ClassPlanning>().Plan(one))!.Fabrics.First(fabric => fabric.Name == "Linen ground");
        var bought = fabric.Plan!.Buy.Length + Length.FromInches(4, 1, 2);
        var address = $"/shopping?class={one}&class={other}";
        var (status, _) = await pages.Post(address, $"{address}&handler=Bought", ("Form.FabricId", $"{fabric.FabricId}"), ("Form.Length", FormattableString.Invariant($"{bought.Inches} in")), ("Form.Paid", "9.01"));
        Assert.Equal(HttpStatusCode.Redirect, status);

        // The first class on the list has what it needs, the second the rest; no cent is lost.
        var purchases = new[] { one, other }.SelectMany(id => guild.Get<SettlingStore>().Purchases(id)).ToList();
        Assert.Equal([fabric.Plan.Buy.Length, Length.FromInches(4, 1, 2)], purchases.Select(purchase => purchase.Length));
        Assert.Equal(9.01m, purchases.Sum(purchase => purchase.Paid));
        var list = FormClient.Words(await pages.Get(address));
        Assert.Contains("That is less than the list asks for.", list, StringComparison.Ordinal);
        Assert.Contains("Short: The same again: ⅛ yd bought, and the plan asks for ½ yd. Buy more, or make fewer kits.", list, StringComparison.Ordinal);
        Assert.Contains("Linen ground: ⅛ yd bought, and the plan asks for ½ yd.", FormClient.Words(await pages.Get($"/classes/{other}")), StringComparison.Ordinal);
        Assert.DoesNotContain("and the plan asks for", FormClient.Words(await pages.Get($"/classes/{one}")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Season_OfClassesInDifferentCurrencies_IsNotAddedUp()
    {
        var one = await SampleGuild.Fill(guild);
        var store = guild.Get<ClassStore>();
        var other = await store.Copy(one, "Abroad", withRoster: true);
        await store.Save(store.Find(other)! with { Currency = "EUR" });
        var text = WebUtility.HtmlDecode(await pages.Get("/shopping"));
        Assert.Contains("different currencies (", text, StringComparison.Ordinal);
        Assert.DoesNotContain("in the basket", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Copy_HasTheSamePlanAndNothingThatHappened()
    {
        var one = await SampleGuild.Fill(guild);
        await guild.Get<ClassPlanning>().SetAside(one);
        await guild.Get<ClassStore>().MarkPrinted(one);
        var (status, next) = await pages.Post($"/classes/{one}/copy", $"/classes/{one}/copy", ("Title", "Corner Star in autumn"), ("WithRoster", "true"));
        Assert.Equal(HttpStatusCode.Redirect, status);
        var copy = guild.Get<ClassStore>().All().Single(record => record.Title == "Corner Star in autumn");
        Assert.Equal($"/classes/{copy.Id}/change", next);
        Assert.True(copy is { PrintedAt: null, HeldOn: null, IsClosed: false });
        var planning = guild.Get<ClassPlanning>();
        var (before, after) = ((await planning.Plan(one))!, (await planning.Plan(copy.Id))!);
        Assert.Equal(before.Kits.Select(kit => kit.Name), after.Kits.Select(kit => kit.Name));
        Assert.Equal(before.Fabrics.Select(fabric => fabric.Request.Pieces.Sum(piece => piece.Count)), after.Fabrics.Select(fabric => fabric.Request.Pieces.Sum(piece => piece.Count)));
        Assert.Empty(before.Kits.Select(kit => kit.Code).Intersect(after.Kits.Select(kit => kit.Code)));
    }

    [Fact]
    public async Task Room_SaysWhatTheNextKitCosts_AsAPlanWithOneMoreDoes()
    {
        var classId = await SampleGuild.Fill(guild);
        var planning = guild.Get<ClassPlanning>();
        var materials = planning.Materials(classId)!;
        var plan = (await planning.Plan(classId))!;
        foreach (var room in guild.Get<RoomBook>().Of(materials, plan))
        {
            var numbers = KitNumbers.Of(plan).ToDictionary();
            numbers[room.Way.ColourwayId] += room.Kits + 1;
            var dearer = planning.PlanFor(materials, plan.CutList, numbers).Sum(fabric => fabric.Plan!.Buy.Cost) - plan.Fabrics.Sum(fabric => fabric.Plan!.Buy.Cost);
            Assert.Equal(dearer, room.NextCost);
            Assert.True(room.NextCost > 0);
            Assert.Contains(MoneyText.Write(room.NextCost, "USD"), WebUtility.HtmlDecode(await pages.Get($"/classes/{classId}/room?part=true")), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Supply_ListsEachLetter()
    {
        var classId = await SampleGuild.Fill(guild);
        var text = WebUtility.HtmlDecode(await pages.Get($"/classes/{classId}/supply"));
        Assert.Contains("background", text, StringComparison.Ordinal);
        Assert.Contains("fat quarter", text, StringComparison.Ordinal);
        Assert.Contains("⅛", text, StringComparison.Ordinal);
    }

    public void Dispose()
    {
        pages.Dispose();
        guild.Dispose();
    }
}
