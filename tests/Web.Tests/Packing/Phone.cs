using System.Net;
using System.Net.Http.Json;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;

namespace KittingBee.Web.Tests.Packing;

/// <summary>A helper's phone, as far as the program can tell: it loads the table, sends marks and listens to the stream.</summary>
internal sealed class Phone : IDisposable
{
    private readonly HttpClient client;
    private readonly long classId;
    private readonly Dictionary<(long Kit, string Line), string> table = [];
    private string token = "";

    public Phone(Uri address, long classId)
    {
        client = new HttpClient(new SocketsHttpHandler { CookieContainer = new CookieContainer(), PooledConnectionLifetime = TimeSpan.FromMinutes(5) }) { BaseAddress = address, Timeout = TimeSpan.FromSeconds(60) };
        this.classId = classId;
    }

    /// <summary>The last sequence heard of.</summary>
    public long Sequence { get; private set; }

    /// <summary>How lines stand by what this phone heard.</summary>
    public IReadOnlyDictionary<(long Kit, string Line), string> Table => table;

    public async Task Load(CancellationToken cancelled)
    {
        var page = await client.GetStringAsync(new Uri("/settings", UriKind.Relative), cancelled);
        token = Regex.Match(page, "name=\"__RequestVerificationToken\" type=\"hidden\" value=\"([^\"]+)\"").Groups[1].Value;
    }

    public static object Mark(Guid id, long kit, string line, string state) => new { id, kit, line, state, who = "Test" };

    public static object Undo(Guid id, long kit, Guid undoes) => new { id, kit, who = "Test", undoes };

    public Task<(HttpStatusCode Status, JsonNode? Body)> Send(IEnumerable<object> marks, CancellationToken cancelled, bool forged = false) =>
        Post("marks", new { marks }, forged, cancelled);

    /// <summary>Reports a short piece, or takes a report back.</summary>
    public Task<(HttpStatusCode Status, JsonNode? Body)> Report(object report, CancellationToken cancelled, bool forged = false) =>
        Post("shortages", report, forged, cancelled);

    /// <summary>Listens, from where it left off, until it has heard of a sequence.</summary>
    public async Task Listen(Func<long> until, CancellationToken cancelled)
    {
        using var request = new HttpRequestMessage(HttpMethod.Get, new Uri($"/api/classes/{classId}/table", UriKind.Relative));
        request.Headers.Add("Last-Event-ID", Sequence.ToString(System.Globalization.CultureInfo.InvariantCulture));
        using var response = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, cancelled);
        Assert.Equal("text/event-stream", response.Content.Headers.ContentType?.MediaType);
        using var reader = new StreamReader(await response.Content.ReadAsStreamAsync(cancelled));
        var name = "";
        while (Sequence < until() && await reader.ReadLineAsync(cancelled) is { } line)
        {
            name = line.StartsWith("event: ", StringComparison.Ordinal) ? line[7..] : line.Length == 0 ? "" : name;
            if (name == "table" && line.StartsWith("data: ", StringComparison.Ordinal))
            {
                Hear(JsonDocument.Parse(line[6..]).RootElement);
            }
        }
    }

    public void Dispose() => client.Dispose();

    private async Task<(HttpStatusCode Status, JsonNode? Body)> Post(string where, object body, bool forged, CancellationToken cancelled)
    {
        using var content = JsonContent.Create(body);
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri($"/api/classes/{classId}/{where}", UriKind.Relative)) { Content = content };
        if (!forged)
        {
            request.Headers.Add("RequestVerificationToken", token);
        }

        using var response = await client.SendAsync(request, cancelled);
        return (response.StatusCode, await response.Content.ReadFromJsonAsync<JsonNode>(cancelled));
    }

    private void Hear(JsonElement change)
    {
        Sequence = change.GetProperty("sequence").GetInt64();
        foreach (var line in change.GetProperty("lines").EnumerateArray())
        {
            var key = (line.GetProperty("kit").GetInt64(), line.GetProperty("line").GetString()!);
            if (line.GetProperty("state").GetString() is { Length: > 0 } state)
            {
                table[key] = state;
            }
            else
            {
                table.Remove(key);
            }
        }
    }
}
