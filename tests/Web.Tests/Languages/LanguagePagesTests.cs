using System.Net;
using KittingBee.Web.Demonstration;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Languages;

/// <summary>Pages speak the guild's language; what programs read does not change with it.</summary>
public sealed class LanguagePagesTests : IDisposable
{
    private readonly GuildHost guild = new();
    private readonly HttpClient client;

    public LanguagePagesTests() => client = guild.CreateClient();

    [Fact]
    public async Task German_IsSpokenWithItsNumbersAndDates()
    {
        await Speak("de");
        var classes = await Page("/");
        Assert.Contains("<html lang=\"de\"", classes, StringComparison.Ordinal);
        Assert.Contains("Neuer Kurs", classes, StringComparison.Ordinal);
        Assert.Contains("Samstag, 13. Februar 2027", classes, StringComparison.Ordinal);

        var shelf = await Page("/shelf");
        Assert.Contains("nutzbar", shelf, StringComparison.Ordinal);
        Assert.Matches("[0-9]+,[0-9]{2}\u00A0\\$ je Yard", shelf);
    }

    [Fact]
    public async Task German_LeavesDrawingsAndFieldsAsTheyAre()
    {
        await Speak("en-GB");
        var before = (await Numbers("/classes/2/cut"), await Numbers("/classes/2/price"));
        await Speak("de");
        Assert.Equal(before, (await Numbers("/classes/2/cut"), await Numbers("/classes/2/price")));

        // What a drawing or a field holds: a comma there would break the one and be refused by the other.
        async Task<string> Numbers(string address) => string.Join('\n', System.Text.RegularExpressions.Regex
            .Matches(await Page(address), " (?:x|y|x1|x2|y1|y2|width|height|viewBox|points|d|inputmode=\"decimal\"[^>]*value)=\"[^\"]*\"").Select(match => match.Value));
    }

    [Fact]
    public async Task American_SpellsItsOwnWay()
    {
        await Speak("en-US");
        var form = await Page("/shelf/fabrics/new");
        Assert.Contains("Color", form, StringComparison.Ordinal);
        Assert.Contains(">meter<", form, StringComparison.Ordinal);
        Assert.Contains("Saturday, February 13, 2027", await Page("/"), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("de-AT,en;q=0.5", "Willkommen bei Kitting Bee", "value=\"de\"")]
    [InlineData("fr,en-US;q=0.8", "Welcome to Kitting Bee", "value=\"en-US\"")]
    [InlineData("tlh", "Welcome to Kitting Bee", "value=\"en-GB\"")]
    public async Task NewGuild_StartsInTheBrowsersLanguage(string accepted, string welcome, string chosen)
    {
        client.DefaultRequestHeaders.AcceptLanguage.ParseAdd(accepted);
        var page = await Page("/");
        Assert.Contains(welcome, page, StringComparison.Ordinal);
        Assert.Matches($"<option[^>]*selected[^>]*{chosen}|<option[^>]*{chosen}[^>]*selected", page);
    }

    [Fact]
    public async Task UnknownLanguage_IsRefusedAtItsField()
    {
        var forms = new FormClient(client);
        var (status, html) = await forms.Post("/", "/settings", new Dictionary<string, string> { ["Form.Name"] = "Millpond Piecers", ["Form.Units"] = "inches", ["Form.Paper"] = "letter", ["Form.Currency"] = "USD", ["Form.Language"] = "xx" });
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("choose one from the list", html, StringComparison.Ordinal);
        Assert.False(guild.Get<GuildStore>().Read().IsAnswered);
    }

    public void Dispose()
    {
        client.Dispose();
        guild.Dispose();
    }

    private async Task Speak(string language)
    {
        var settings = guild.Get<GuildStore>();
        if (!settings.Read().IsAnswered)
        {
            await guild.Get<DemonstrationGuild>().Load();
        }

        Assert.Equal(Saved.Done, await settings.Save(settings.Read() with { Language = language }));
    }

    private async Task<string> Page(string address) => WebUtility.HtmlDecode(await client.GetStringAsync(new Uri(address, UriKind.Relative), TestContext.Current.CancellationToken));
}
