using System.Diagnostics;
using System.Globalization;
using KittingBee.Web.Classes;
using KittingBee.Web.Demonstration;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests;

namespace KittingBee.Benchmarks;

/// <summary>How long the price curve of the demonstration's first class takes over 60 numbers of students, nothing of it planned before.</summary>
internal static class CurveRun
{
    private const int Rounds = 5;

    public static async Task<int> Run()
    {
        await using var guild = new GuildHost();
        await guild.Get<DemonstrationGuild>().Load();
        var planning = guild.Get<ClassPlanning>();
        var stored = Enumerable.Range(1, 20).Select(id => planning.Materials(id)).OfType<ClassMaterials>().First(one => one.Colourways.Count > 1);
        var materials = stored with { Record = stored.Record with { Places = 60 } };
        var plan = await planning.Plan(materials);
        var whole = new List<double>();
        var first = new List<double>();
        var processor = TimeSpan.Zero;
        for (var round = 0; round <= Rounds; round++)
        {
            var book = new PlanBook(guild.Get<PlanStore>());
            var (before, clock) = (Process.GetCurrentProcess().TotalProcessorTime, Stopwatch.StartNew());
            ClassCurve.Of(planning, book, materials, plan, TimeProvider.System, TimeSpan.Zero);
            first.Add(clock.Elapsed.TotalMilliseconds);
            var curve = ClassCurve.Of(planning, book, materials, plan, TimeProvider.System, TimeSpan.FromMinutes(5));
            whole.Add(clock.Elapsed.TotalMilliseconds);
            processor = Process.GetCurrentProcess().TotalProcessorTime - before;
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{curve?.Points.Count} points of {plan.Fabrics.Count} fabrics: the first after {first[^1]:0} ms, all after {whole[^1]:0} ms, {processor.TotalMilliseconds:0} ms of processor time"));
        }

        return 0;
    }
}
