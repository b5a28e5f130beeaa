using KittingBee.Web.Demonstration;
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
