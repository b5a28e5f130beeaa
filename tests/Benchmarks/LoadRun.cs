using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Http.Json;
using System.Text.RegularExpressions;

namespace KittingBee.Benchmarks;

/// <summary>
/// Fifty people at once, each asking for the next page as soon as the last has come: every page, drawing and paper that the
/// demonstration links to, and every tenth time a mark at the packing table. Beside it the same fifty at an empty page.
/// Arguments: a program to start (its published file), and how many seconds; client and server share the machine.
/// </summary>
internal static partial class LoadRun
{
    private const int People = 50;
    private static readonly Uri Address = new("http://127.0.0.1:58771");

    public static async Task<int> Run(string[] arguments)
    {
        if (arguments is not [var program, ..] || !File.Exists(program))
        {
            Console.WriteLine("load PROGRAM [SECONDS]: name the published program to start, such as publish/linux/KittingBee.Web.");
            return 2;
        }

        var seconds = arguments.Length > 1 ? int.Parse(arguments[1], CultureInfo.InvariantCulture) : 300;
        var folder = Directory.CreateTempSubdirectory("kitting-bee-load-").FullName;
        var failures = 0;
        using (await Start(program, ["--demo", "--no-browser", "--data", folder, "--urls", Address.ToString()]))
        {
            var pages = await Crawl();
            Console.WriteLine($"{pages.Count} addresses of the demonstration");
            failures = await Measure("mixed pages", TimeSpan.FromSeconds(seconds), pages, marks: true);
        }

        using (await Start(Environment.ProcessPath!, ["empty-page", Address.ToString()]))
        {
            await Measure("empty page", TimeSpan.FromSeconds(Math.Min(seconds, 30)), ["/"], marks: false);
        }

        Directory.Delete(folder, recursive: true);
        return failures == 0 ? 0 : 1;
    }

    private static async Task<Running> Start(string program, string[] arguments)
    {
        var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true })!;
        using var client = new HttpClient { BaseAddress = Address };
        for (var attempt = 0; attempt < 600 && !process.HasExited; attempt++)
        {
            try
            {
                using var answer = await client.GetAsync(new Uri("/", UriKind.Relative));
                return new Running(process);
            }
            catch (HttpRequestException)
            {
                await Task.Delay(100);
            }
        }

        new Running(process).Dispose();
        throw new InvalidOperationException($"{program} did not answer within a minute.");
    }

    // What the first page leads to, three steps far: GET only, each kind of address a few times.
    private static async Task<IReadOnlyList<string>> Crawl()
    {
        using var client = new HttpClient { BaseAddress = Address };
        var found = new List<string> { "/" };
        var kinds = new Dictionary<string, int>();
        for (var at = 0; at < found.Count && at < 400; at++)
        {
            using var answer = await client.GetAsync(new Uri(found[at], UriKind.Relative));
            if (!answer.IsSuccessStatusCode)
            {
                throw new InvalidOperationException($"{found[at]} answers {(int)answer.StatusCode}.");
            }

            if (answer.Content.Headers.ContentType?.MediaType != "text/html")
            {
                continue;
            }

            foreach (var link in Links().Matches(await answer.Content.ReadAsStringAsync()).Select(match => WebUtility.HtmlDecode(match.Groups[1].Value)))
            {
                var kind = Number().Replace(link, "#");
                if (!found.Contains(link) && (kinds[kind] = kinds.GetValueOrDefault(kind) + 1) <= 4)
                {
                    found.Add(link);
                }
            }
        }

        return found;
    }

    private static async Task<int> Measure(string what, TimeSpan length, IReadOnlyList<string> pages, bool marks)
    {
        var times = new ConcurrentBag<double>();
        var failures = new ConcurrentBag<string>();
        var people = Enumerable.Range(0, People).Select(_ => new HttpClient(new SocketsHttpHandler { CookieContainer = new CookieContainer() }) { BaseAddress = Address, Timeout = TimeSpan.FromSeconds(100) }).ToList();
        var markers = marks ? await Task.WhenAll(people.Select(client => Marker.Load(client, pages))) : null;
        var clock = Stopwatch.StartNew();
        await Task.WhenAll(people.Select(async (client, person) =>
        {
            var random = new Random(person);
            var marker = markers?[person];
            while (clock.Elapsed < length)
            {
                var page = pages[random.Next(pages.Count)];
                var start = clock.Elapsed;
                try
                {
                    using var answer = marker is not null && random.Next(10) == 0 ? await marker.Mark(client, random) : await client.GetAsync(new Uri(page, UriKind.Relative));
                    await answer.Content.ReadAsByteArrayAsync();
                    if (!answer.IsSuccessStatusCode)
                    {
                        failures.Add($"{(int)answer.StatusCode} {answer.RequestMessage?.RequestUri?.AbsolutePath}");
                    }
                }
                catch (Exception e) when (e is HttpRequestException or TaskCanceledException)
                {
                    failures.Add($"{page}: {e.Message}");
                }

                times.Add((clock.Elapsed - start).TotalMilliseconds);
            }
        }));

        people.ForEach(client => client.Dispose());
        var sorted = times.Order().ToArray();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{what}: {sorted.Length} answers in {clock.Elapsed.TotalSeconds:0} s, {sorted.Length / clock.Elapsed.TotalSeconds:0} a second; median {sorted[sorted.Length / 2]:0.0} ms, 95 of 100 within {sorted[sorted.Length * 95 / 100]:0.0} ms, longest {sorted[^1]:0} ms; {failures.Count} errors"));
        foreach (var failure in failures.GroupBy(text => text).Take(20))
        {
            Console.WriteLine($"  {failure.Count()} × {failure.Key}");
        }

        return failures.Count;
    }

    [GeneratedRegex("href=\"(/[^\"#]*)\"")]
    private static partial Regex Links();

    [GeneratedRegex("[0-9]+")]
    private static partial Regex Number();

    /// <summary>A helper at the packing table of the first class.</summary>
    private sealed partial class Marker(string table, string token, IReadOnlyList<long> kits)
    {
        public static async Task<Marker> Load(HttpClient client, IReadOnlyList<string> pages)
        {
            var table = pages.First(page => PackPage().IsMatch(page));
            var html = await client.GetStringAsync(new Uri(table, UriKind.Relative));
            return new(
                $"/api/classes/{PackPage().Match(table).Groups[1].Value}/marks",
                Token().Match(html).Groups[1].Value,
                [.. Kit().Matches(html).Select(match => long.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture)).Distinct()]);
        }

        public Task<HttpResponseMessage> Mark(HttpClient client, Random random)
        {
            var request = new HttpRequestMessage(HttpMethod.Post, new Uri(table, UriKind.Relative))
            {
                Content = JsonContent.Create(new { marks = new[] { new { id = Guid.NewGuid(), kit = kits[random.Next(kits.Count)], line = "kit", state = random.Next(2) == 0 ? "checked" : "handed-over", who = "Load" } } }),
            };
            request.Headers.Add("RequestVerificationToken", token);
            return client.SendAsync(request);
        }

        [GeneratedRegex("^/classes/([0-9]+)/pack$")]
        private static partial Regex PackPage();

        [GeneratedRegex("name=\"__RequestVerificationToken\" type=\"hidden\" value=\"([^\"]+)\"")]
        private static partial Regex Token();

        [GeneratedRegex("data-kit=\"([0-9]+)\"")]
        private static partial Regex Kit();
    }

    private sealed class Running(Process process) : IDisposable
    {
        public void Dispose()
        {
            process.Kill();
            process.WaitForExit();
            process.Dispose();
        }
    }
}
