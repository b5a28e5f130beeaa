using System.Net;
using System.Text.RegularExpressions;

namespace KittingBee.Web.Tests;

/// <summary>A browser without scripts: gets pages, and posts forms with what the page put into their hidden fields.</summary>
public sealed partial class FormClient(HttpClient client)
{
    public async Task<(HttpStatusCode Status, string Html)> Get(string address)
    {
        using var response = await client.GetAsync(new Uri(address, UriKind.Relative), TestContext.Current.CancellationToken);
        return (response.StatusCode, await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    /// <summary>Posts to a page: its own fields as they stand, with <paramref name="typed"/> put over them.</summary>
    public async Task<(HttpStatusCode Status, string Html)> Post(string page, string address, IReadOnlyDictionary<string, string> typed)
    {
        var (_, html) = await Get(page);
        var fields = Inputs().Matches(html)
            .Select(input => (Name: Attribute(input.Value, "name"), Value: Attribute(input.Value, "value") ?? ""))
            .Where(field => field.Name is not null)
            .GroupBy(field => field.Name!)
            .ToDictionary(field => field.Key, field => field.First().Value);
        foreach (var (name, value) in typed)
        {
            fields[name] = value;
        }

        using var form = new FormUrlEncodedContent(fields);
        using var response = await client.PostAsync(new Uri(address, UriKind.Relative), form, TestContext.Current.CancellationToken);
        return (response.StatusCode, await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    /// <summary>The text of a page as people read it: no tags, no entities, single spaces.</summary>
    public static string Words(string html) => Spaces().Replace(WebUtility.HtmlDecode(Tags().Replace(html, " ")), " ");

    private static string? Attribute(string tag, string name)
    {
        var match = Regex.Match(tag, $"\\b{name}=\"([^\"]*)\"");
        return match.Success ? WebUtility.HtmlDecode(match.Groups[1].Value) : null;
    }

    [GeneratedRegex("<input[^>]*>")]
    private static partial Regex Inputs();

    [GeneratedRegex("<[^>]*>")]
    private static partial Regex Tags();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();
}
