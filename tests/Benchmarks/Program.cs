using BenchmarkDotNet.Configs;
using BenchmarkDotNet.Jobs;
using BenchmarkDotNet.Running;
using BenchmarkDotNet.Toolchains.InProcess.Emit;

namespace KittingBee.Benchmarks;

internal static class Benching
{
    private static async Task<int> Main(string[] args)
    {
        switch (args)
        {
            case ["bin-packing", .. var rest]:
                return BinPackingRun.Run(rest);
            case ["mixed", .. var seconds]:
                return MixedRun.Run(seconds);
            case ["small", .. var drawn]:
                return SmallRun.Run(drawn);
            case ["hard"]:
                return HardRun.Run();
            case ["solvers", .. var solving]:
                return SolverRun.Run(solving);
            case ["papers"]:
                return await PaperRun.Run();
            case ["curve"]:
                return await CurveRun.Run();
            case ["load", .. var measured]:
                return await LoadRun.Run(measured);
            case ["empty-page", var address]:
                EmptyPage.Serve(address);
                return 0;
            default:
                // In this process: the usual way builds a project of its own, which central package versions and lock files do not allow.
                var job = Job.Default.WithToolchain(InProcessEmitToolchain.Instance).WithWarmupCount(2).WithIterationCount(8);
                BenchmarkSwitcher.FromAssembly(typeof(PlanningBenchmarks).Assembly).Run(args, DefaultConfig.Instance.AddJob(job));
                return 0;
        }
    }
}
