using System.Net;
using System.Text;
using System.Text.Json.Nodes;

namespace KittingBee.Web.Tests.Api;

/// <summary>The real program, called the way another program would call it.</summary>
public sealed class ApiHost : IDisposable
{
    private readonly GuildHost program = new();
    private readonly HttpClient client;

    public ApiHost() => client = program.CreateClient();

    public HttpClient Client => client;

    public async Task<(HttpStatusCode Status, JsonNode Body)> Post(string call, string json)
    {
        using var content = new StringContent(json, Encoding.UTF8, "application/json");
        using var response = await client.PostAsync(new Uri(call, UriKind.Relative), content);
        return (response.StatusCode, JsonNode.Parse(await response.Content.ReadAsStringAsync())!);
    }

    /// <summary>Posts something wrong; gives the messages for one field of the problem details.</summary>
    public async Task<string> Refusal(string call, string json, string field)
    {
        using var content = new StringContent(json, Encoding.UTF8, "application/json");
        using var response = await client.PostAsync(new Uri(call, UriKind.Relative), content);
        var text = await response.Content.ReadAsStringAsync();
        Assert.True(response.StatusCode == HttpStatusCode.BadRequest, $"{(int)response.StatusCode}: {text}");
        Assert.Equal("application/problem+json", response.Content.Headers.ContentType?.MediaType);
        var problem = JsonNode.Parse(text)!;
        Assert.Equal(400, problem["status"]!.GetValue<int>());
        Assert.False(string.IsNullOrEmpty(problem["title"]!.GetValue<string>()));
        var messages = problem["errors"]![field];
        Assert.True(messages is not null, $"{field} is not named in {problem["errors"]}");
        return string.Join(" ", messages.AsArray().Select(message => message!.GetValue<string>()));
    }

    /// <summary>The names of an object's members, in order.</summary>
    public static string Names(JsonNode? node) => string.Join(" ", node!.AsObject().Select(member => member.Key));

    public void Dispose()
    {
        client.Dispose();
        program.Dispose();
    }
}
