using System.Diagnostics;
using System.Globalization;
using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests;

namespace KittingBee.Benchmarks;

/// <summary>How long the papers of large classes take at the server, and what they weigh, asked of the real program over HTTP.</summary>
internal static class PaperRun
{
    private const int Lines = 12;
    private const int Rounds = 5;

    public static async Task<int> Run()
    {
        await using var guild = new GuildHost();
        var address = guild.Listen();
        using var client = new HttpClient { BaseAddress = address };
        var workbook = await Fill(guild, 500);
        var handouts = await Fill(guild, 200);
        var endless = await Fill(guild, 2000);
        await client.GetByteArrayAsync(new Uri($"/classes/{workbook}/print/labels", UriKind.Relative)); // Planned and stored: only the paper is measured.
        await Measure(client, $"/classes/{workbook}/print/workbook", $"workbook, 500 kits of {Lines} lines");
        await Measure(client, $"/classes/{handouts}/print/handouts", $"handouts of 200 students, {Lines} fabrics");
        await Measure(client, $"/classes/{endless}/print/handouts", $"handouts of 2,000 students, {Lines} fabrics");
        await Measure(client, $"/classes/{handouts}/print/labels?sheet=letter-3x10", "labels of 200 kits");
        return 0;
    }

    private static async Task Measure(HttpClient client, string path, string what)
    {
        var times = new List<(TimeSpan Whole, TimeSpan First)>();
        var (allocated, peak, size) = (0L, 0L, 0L);
        for (var round = 0; round <= Rounds; round++)
        {
            GC.Collect();
            var (before, floor) = (GC.GetTotalAllocatedBytes(precise: true), GC.GetTotalMemory(forceFullCollection: true));
            using var watch = new Timer(_ => peak = Math.Max(peak, GC.GetTotalMemory(forceFullCollection: false) - floor), null, 0, 5);
            var clock = Stopwatch.StartNew();
            using var answer = await client.GetAsync(new Uri(path, UriKind.Relative), HttpCompletionOption.ResponseHeadersRead);
            answer.EnsureSuccessStatusCode();
            await using var body = await answer.Content.ReadAsStreamAsync();
            var buffer = new byte[81920];
            size = 0;
            var first = TimeSpan.Zero;
            for (int read; (read = await body.ReadAsync(buffer)) > 0; size += read)
            {
                first = first == TimeSpan.Zero ? clock.Elapsed : first;
            }

            if (round > 0)
            {
                times.Add((clock.Elapsed, first)); // The first round compiles.
            }

            allocated = GC.GetTotalAllocatedBytes(precise: true) - before;
        }

        Console.WriteLine(string.Create(
            CultureInfo.InvariantCulture,
            $"{what}: median {Median(times.Select(time => time.Whole)):0} ms, first bytes after {Median(times.Select(time => time.First)):0} ms, slowest {times.Max(time => time.Whole).TotalMilliseconds:0} ms; {size / 1e6:0.0} MB sent, {allocated / 1e6:0} MB allocated, at most {peak / 1e6:0} MB more on the heap at once"));
    }

    private static double Median(IEnumerable<TimeSpan> times) => times.Order().ElementAt(Rounds / 2).TotalMilliseconds;

    // Twelve fabrics, so that a kit has twelve lines: the block is a plain grid of squares.
    private static async Task<long> Fill(GuildHost guild, int students)
    {
        var fabrics = guild.Get<FabricStore>();
        var way = new Dictionary<string, long>();
        for (var index = 0; index < Lines; index++)
        {
            way[((char)('A' + index)).ToString()] = await fabrics.Add(new Fabric
            {
                Name = $"Fabric {index + 1} of {students}", Colour = "#27447a", UsableWidth = Length.FromInches(40), Price = 10m, PricePer = "yard",
                Increment = Length.FromInches(4, 1, 2), Minimum = Length.FromInches(4, 1, 2),
            });
        }

        var units = string.Join(",", way.Keys.Select((letter, index) => $$"""{"row":{{index / 4}},"column":{{index % 4}},"kind":"plain","fabrics":["{{letter}}"]}"""));
        var letters = string.Join(",", way.Keys.Select(letter => $$"""{"letter":"{{letter}}","name":"fabric {{letter}}"}"""));
        var id = await guild.Get<ClassStore>().Add(new ClassRecord
        {
            Title = $"Class of {students}", BlockName = "Twelve squares",
            BlockJson = $$"""{"name":"Twelve squares","columns":[3,3,3,3],"rows":[3,3,3],"fabrics":[{{letters}}],"units":[{{units}}]}""",
            Units = "inches", Paper = "letter", Currency = "USD", SeamAllowance = Length.FromInches(0, 1, 4), CuttingStep = Length.FromInches(0, 1, 8),
        });
        var colourway = await guild.Get<ColourwayStore>().Add(new Colourway { ClassId = id, Name = "Dusk", FabricOfLetter = way });
        await guild.Get<RosterStore>().Add(id, [.. Enumerable.Range(1, students).Select(number => new Student { Name = $"Student number {number}", ColourwayId = colourway })]);
        return id;
    }
}
