using System.Diagnostics;
using System.Globalization;
using KittingBee.Web.Classes;
using KittingBee.Web.Demonstration;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests;

namespace KittingBee.Benchmarks;

/// <summary>How long the price curves of the demonstration's classes take over 60 numbers of students, nothing of them planned before.</summary>
internal static class CurveRun
{
    private const int Rounds = 3;

    public static async Task<int> Run()
    {
        await using var guild = new GuildHost();
        await guild.Get<DemonstrationGuild>().Load();
        var planning = guild.Get<ClassPlanning>();
        foreach (var stored in Enumerable.Range(1, 20).Select(id => planning.Materials(id)).OfType<ClassMaterials>().Where(one => one.Colourways.Count > 0))
        {
            var materials = stored with { Record = stored.Record with { Places = 60 } };
            var plan = await planning.Plan(materials);
            for (var round = 0; round <= Rounds && plan.Problems.Count == 0; round++)
            {
                var book = new PlanBook(guild.Get<PlanStore>());
                var (before, clock) = (Process.GetCurrentProcess().TotalProcessorTime, Stopwatch.StartNew());
                ClassCurve.Of(planning, book, materials, plan, TimeProvider.System, TimeSpan.Zero);
                var first = clock.Elapsed.TotalMilliseconds;
                var curve = ClassCurve.Of(planning, book, materials, plan, TimeProvider.System, TimeSpan.FromMinutes(5));
                var whole = clock.Elapsed.TotalMilliseconds;
                var processor = Process.GetCurrentProcess().TotalProcessorTime - before;
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{stored.Record.Title}, {curve?.Points.Count} points of {plan.Fabrics.Count} fabrics: the first after {first:0} ms, all after {whole:0} ms, {processor.TotalMilliseconds:0} ms of processor time"));
            }
        }

        return 0;
    }
}
