using System.Globalization;
using System.Text.RegularExpressions;
using KittingBee.Planning.Measures;
using KittingBee.Web.Demonstration;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Pages;

namespace KittingBee.Web.Tests.Finding;

public sealed class FindPageTests : IAsyncLifetime
{
    private readonly GuildHost guild = new();

    public async ValueTask InitializeAsync() => await guild.Get<DemonstrationGuild>().Load();

    public ValueTask DisposeAsync() => guild.DisposeAsync();

    [Fact]
    public async Task Question_FindsEveryKindAndSaysWhatEachIs()
    {
        using var pages = new PageClient(guild);
        var html = await pages.Get("/find?q=star");
        Assert.Contains("<h2>Classes</h2>", html, StringComparison.Ordinal);
        Assert.Contains("<h2>Blocks</h2>", html, StringComparison.Ordinal);
        Assert.Contains("value=\"star\"", html, StringComparison.Ordinal);
        Assert.Matches("href=\"/blocks/[0-9]+\">Ohio Star", html);
    }

    [Fact]
    public async Task Classes_ComeLatestFirst()
    {
        using var pages = new PageClient(guild);
        var titles = System.Text.RegularExpressions.Regex.Matches(await pages.Get("/find"), "href=\"/classes/([0-9]+)\">").Select(match => long.Parse(match.Groups[1].Value, System.Globalization.CultureInfo.InvariantCulture)).ToList();
        var stored = guild.Get<KittingBee.Web.Storage.ClassStore>().All().ToDictionary(item => item.Id, item => item.HeldOn);
        var days = titles.Select(id => stored[id]).OfType<DateOnly>().ToList();
        Assert.True(days.Count > 1);
        Assert.Equal(days.OrderByDescending(day => day), days);
    }

    [Fact]
    public async Task WhatWasTouchedLast_ComesFirst()
    {
        var blocks = guild.Get<BlockStore>();
        var oldest = blocks.All().Select(block => block.Id).Min();
        var stored = blocks.Find(oldest)!;
        await blocks.Save(stored with { Name = "Star of the day" });
        await guild.Get<FabricStore>().Add(new() { Name = "Star dots", Colour = "#35507f", UsableWidth = Length.FromInches(42), Increment = Length.FromInches(4.5m), Minimum = Length.FromInches(4.5m) });
        var soon = await guild.Get<ClassStore>().Copy(2, "Stars again", withRoster: true);
        var person = guild.Get<RosterStore>().ForClass(2)[0].Name;

        using var pages = new PageClient(guild);
        var latest = await pages.Get("/find");
        Assert.Equal($"/blocks/{oldest}", First(latest, "/blocks/[0-9]+"));
        Assert.Contains("Star dots", latest[latest.IndexOf(First(latest, "/shelf/fabrics/[0-9]+"), StringComparison.Ordinal)..][..60], StringComparison.Ordinal);

        // The same order among what was asked for. A class that has no date yet counts from the day it was made.
        Assert.Equal($"/blocks/{oldest}", First(await pages.Get("/find?q=star"), "/blocks/[0-9]+"));
        var classes = guild.Get<ClassStore>();
        var record = classes.Find(soon)!;
        var held = classes.Find(2)!.HeldOn!.Value;
        Assert.Equal(Saved.Done, await classes.Save(record with { HeldOn = held.AddDays(1) }));
        Assert.Equal([soon, 2L, 1L], await ClassesOf(person));
        Assert.Equal(Saved.Done, await classes.Save(classes.Find(soon)! with { HeldOn = held.AddDays(-1) }));
        Assert.Equal([2L, soon, 1L], await ClassesOf(person));

        static string First(string html, string address) => Regex.Match(html, $"(?<=href=\"){address}(?=\")").Value;
        async Task<List<long>> ClassesOf(string name) => [.. Regex.Matches(await pages.Get("/find?q=" + Uri.EscapeDataString(name)), "/classes/([0-9]+)/roster/")
            .Select(match => long.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture))];
    }

    [Fact]
    public async Task People_AreFoundByNameAndNotListedUnasked()
    {
        using var pages = new PageClient(guild);
        var person = guild.Get<KittingBee.Web.Storage.RosterStore>().ForClass(2)[0];
        Assert.Contains($"/classes/2/roster/{person.Id}", await pages.Get("/find?q=" + Uri.EscapeDataString(person.Name.ToUpperInvariant())), StringComparison.Ordinal);
        Assert.DoesNotContain("<h2>People</h2>", await pages.Get("/find"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("/find?q=%3Cscript%3E", "Nothing has all of these words")]
    [InlineData("/find?q=%20%20", "The latest of each kind")]
    public async Task OddQuestion_IsAnswered(string address, string says)
    {
        using var pages = new PageClient(guild);
        var html = await pages.Get(address);
        Assert.Contains(says, html, StringComparison.Ordinal);
        Assert.DoesNotContain("<script>", html, StringComparison.Ordinal);
    }
}
