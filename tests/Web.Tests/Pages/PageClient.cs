using System.Net;
using System.Text.RegularExpressions;

namespace KittingBee.Web.Tests.Pages;

/// <summary>Fills in forms as a browser without scripts does: gets the page, takes its token, sends the fields.</summary>
internal sealed partial class PageClient(GuildHost guild) : IDisposable
{
    private readonly HttpClient client = guild.CreateClient(new() { AllowAutoRedirect = false });

    public HttpClient Http => client;

    public async Task<string> Get(string address)
    {
        using var answer = await client.GetAsync(new Uri(address, UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
        return await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
    }

    /// <summary>Posts to a page with the token of <paramref name="page"/>; gives the status and the text (the address where it leads on).</summary>
    public async Task<(HttpStatusCode Status, string Text)> Post(string page, string address, params (string Name, string Value)[] fields)
    {
        var html = await Get(page);
        var token = Token().Match(html).Groups[1].Value;
        using var form = new FormUrlEncodedContent(fields.Append(("__RequestVerificationToken", token)).Select(field => KeyValuePair.Create(field.Item1, field.Item2)));
        using var answer = await client.PostAsync(new Uri(address, UriKind.Relative), form, TestContext.Current.CancellationToken);
        var text = answer.Headers.Location?.ToString() ?? WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        return (answer.StatusCode, text);
    }

    public void Dispose() => client.Dispose();

    [GeneratedRegex("name=\"__RequestVerificationToken\" type=\"hidden\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
