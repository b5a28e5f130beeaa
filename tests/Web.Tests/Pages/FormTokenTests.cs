using System.Net;
using System.Text.RegularExpressions;

namespace KittingBee.Web.Tests.Pages;

/// <summary>A form is refused unless it brings the page's token itself; a token in another form of the page is of no use to it.</summary>
public sealed partial class FormTokenTests : IDisposable
{
    private readonly GuildHost guild = new();
    private readonly PageClient pages;

    public FormTokenTests() => pages = new PageClient(guild);

    [Fact]
    public async Task EveryPostingForm_BringsItsOwnToken()
    {
        await AssertTokens("/");
        await pages.Post("/", "/?handler=Demonstration");
        foreach (var address in new[]
        {
            "/settings", "/blocks", "/blocks/new", "/blocks/1", "/blocks/typed", "/shelf/fabrics/1", "/shelf/fabrics/new", "/shelf/pieces/1", "/classes/new", "/classes/2",
            "/classes/2/change", "/classes/2/roster", "/classes/2/fabrics", "/classes/2/fabrics/new", "/classes/2/price", "/classes/2/print", "/classes/2/pack", "/classes/1/settle", "/settings/sharing", "/classes/2/print/links",
        })
        {
            await AssertTokens(address);
        }
    }

    /// <summary>Pages that also answer at an address without a number must not send their buttons there.</summary>
    [Theory]
    [InlineData("/classes/2/fabrics/3")]
    [InlineData("/classes/2/roster/8")]
    [InlineData("/shelf/pieces/1")]
    [InlineData("/shelf/fabrics/1")]
    [InlineData("/classes/2/change")]
    public async Task RemoveButton_AsItStandsOnThePage_ReachesItsPage(string address)
    {
        await pages.Post("/", "/?handler=Demonstration");
        var action = WebUtility.HtmlDecode(RemoveAction().Match(await pages.Get(address)).Groups[1].Value);
        var target = new Uri(new Uri(new Uri("http://guild.test"), address), action).PathAndQuery;
        var (status, _) = await pages.Post(address, target);
        Assert.NotEqual(HttpStatusCode.NotFound, status);
        Assert.Equal($"{address}?handler=Remove", target);
    }

    public void Dispose()
    {
        pages.Dispose();
        guild.Dispose();
    }

    private async Task AssertTokens(string address)
    {
        foreach (Match form in PostingForm().Matches(await pages.Get(address)))
        {
            Assert.True(form.Value.Contains("__RequestVerificationToken", StringComparison.Ordinal), $"{address}: a form without its token: {form.Value[..Math.Min(200, form.Length)]}");
        }
    }

    [GeneratedRegex("<form[^>]*action=\"([^\"]*handler=Remove)\"")]
    private static partial Regex RemoveAction();

    [GeneratedRegex("<form[^>]*method=\"post\".*?</form>", RegexOptions.Singleline)]
    private static partial Regex PostingForm();
}
