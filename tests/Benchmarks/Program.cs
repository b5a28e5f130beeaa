using BenchmarkDotNet.Running;
using KittingBee.Benchmarks;

if (args is ["bin-packing", .. var rest])
{
    return BinPackingRun.Run(rest);
}

BenchmarkSwitcher.FromAssembly(typeof(PlanningBenchmarks).Assembly).Run(args);
return 0;
