using System.Diagnostics;
using System.Globalization;

namespace KittingBee.Web.Tests.Fuzzing;

/// <summary>
/// Feeds a reader with spoiled input. How much of it comes from the environment: tests/fuzz asks for more than a hundred
/// thousand in all, the usual run of the tests for a few thousand.
/// </summary>
internal static class FuzzRun
{
    // A reader that needs this much for at most 200 kB of input lets the input decide how much.
    private const long MostAllocated = 400L * 1024 * 1024;

    // Far beyond a second, so that a busy machine is not taken for a hang; tests/fuzz prints the longest.
    private static readonly TimeSpan Hang = TimeSpan.FromSeconds(60);

    public static int Inputs(double share) =>
        Math.Max(20, (int)(share * int.Parse(Environment.GetEnvironmentVariable("KITTING_BEE_FUZZ") ?? "3000", CultureInfo.InvariantCulture)));

    /// <summary>Runs <paramref name="read"/> over spoiled copies of <paramref name="good"/>; prints what was measured, and fails with each input that came to no answer.</summary>
    public static async Task Over(string name, int inputs, IReadOnlyList<byte[]> good, Func<byte[], Task> read)
    {
        var mutator = new Mutator(seed: 20261125);
        var failures = new List<string>();
        var (longest, most) = (TimeSpan.Zero, 0L);
        for (var i = 0; i < inputs && failures.Count < 10; i++)
        {
            var input = mutator.Next(good);
            var before = GC.GetTotalAllocatedBytes();
            var clock = Stopwatch.StartNew();
            try
            {
                await Task.Run(() => read(input)).WaitAsync(Hang);
            }
#pragma warning disable CA1031 // Whatever comes out of a reader is the finding.
            catch (Exception e)
#pragma warning restore CA1031
            {
                failures.Add($"{name}, input {i}: {e.GetType().Name}: {e.Message}\n{Convert.ToBase64String(input[..Math.Min(input.Length, 3000)])}");
            }

            longest = clock.Elapsed > longest ? clock.Elapsed : longest;
            var allocated = GC.GetTotalAllocatedBytes() - before;
            most = Math.Max(most, allocated);
            if (allocated > MostAllocated)
            {
                failures.Add($"{name}, input {i}: {allocated / 1024 / 1024} MB allocated\n{Convert.ToBase64String(input[..Math.Min(input.Length, 3000)])}");
            }
        }

        TestContext.Current.TestOutputHelper?.WriteLine($"{name}: {inputs} inputs, longest {longest.TotalMilliseconds:0} ms, most allocated {most / 1024.0 / 1024:0.0} MB, {failures.Count} failures");
        Assert.True(failures.Count == 0, string.Join('\n', failures));
    }
}
