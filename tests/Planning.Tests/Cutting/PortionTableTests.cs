using System.Numerics;
using CsCheck;
using KittingBee.Planning.Cutting;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>Tables worked on in blocks hold what going through all portions one by one gives.</summary>
public sealed class PortionTableTests
{
    private static readonly Gen<int[]> ANeed = Gen.OneOf(Gen.Int[0, 4].Array[1, 5], Gen.Int[1, 1].Array[1, 9], Gen.Int[1, 2].Array[3, 7], Gen.Int[15, 40].Array[1, 2])
        .Where(need => need.Any(wanted => wanted > 0));

    [Fact]
    public void Portions_AnyDemand_EachHasItsOwnNumber() => ANeed.Sample(
        need =>
        {
            var portions = Of(need);
            var all = portions.Within(portions.All).ToList();
            Assert.Equal(need.Aggregate(1, (count, wanted) => count * (wanted + 1)), all.Count);
            Assert.Equal(all.Order(), all);
            Assert.All(all, portion => Assert.Equal(portion, portions.Read(portion).Select((count, size) => count * portions.StepOf(size)).Sum()));

            double[] worth = [.. need.Select((_, size) => 1.0 + size)];
            var worths = portions.WorthOf(worth);
            Assert.All(all, portion => Assert.Equal(portions.Read(portion).Select((count, size) => count * worth[size]).Sum(), worths[portion]));
        },
        iter: 200, threads: 1, seed: "0N0XIzNsQ0O2");

    [Fact]
    public void Offer_ShortCells_IsTheLeastOfAllSums() => Sums<short>();

    [Fact]
    public void Offer_LongerCells_IsTheLeastOfAllSums()
    {
        Sums<int>();
        Sums<long>();
    }

    /// <summary>Portions with a cost, each as often as wanted: the table against a search from the demand down.</summary>
    private static void Sums<T>()
        where T : struct, IBinaryInteger<T>, IMinMaxValue<T> => Gen.Select(ANeed, Gen.Int[0, 1_000_000].Array[1, 8], Gen.Int[1, 60].Array[8]).Sample(
        (need, drawn, costs) =>
        {
            var portions = Of(need);
            var all = portions.Within(portions.All).ToList();
            var offers = drawn.Select((number, index) => (Portion: all[number % all.Count], Cost: costs[index])).Where(offer => offer.Portion > 0).OrderBy(offer => offer.Portion).ToList();
            var table = new PortionTable<T>(portions);
            foreach (var (portion, cost) in Enumerable.Reverse(offers))
            {
                table.Offer(portion, T.CreateChecked(cost));
            }

            var least = all.ToDictionary(portion => portion, portion => portion == 0 ? 0L : long.MaxValue);
            foreach (var portion in all)
            {
                foreach (var (part, cost) in offers.Where(offer => portions.Holds(portion, offer.Portion) && least[portion - offer.Portion] < long.MaxValue))
                {
                    least[portion] = Math.Min(least[portion], least[portion - part] + cost);
                }
            }

            var never = long.CreateChecked(PortionTable<T>.Never);
            Assert.All(all, portion => Assert.Equal(Math.Min(never, least[portion]), long.CreateChecked(table[portion])));

            var beyond = table.Beyond();
            var closed = table.Copy();
            closed.Close();
            foreach (var portion in all)
            {
                var counts = portions.Read(portion);
                var more = Enumerable.Range(0, need.Length).Where(size => counts[size] < need[size]).Select(size => table[portion + portions.StepOf(size)]);
                Assert.Equal(more.DefaultIfEmpty(PortionTable<T>.Never).Min(), beyond[portion]);
                Assert.Equal(all.Where(other => portions.Holds(other, portion)).Min(other => table[other]), closed[portion]);
            }
        },
        iter: 150, threads: 1, seed: "0N0XIzNsQ0O2");

    private static Portions Of(int[] need) => Portions.Of(need, 1_000_000, new PortionWork(long.MaxValue, CancellationToken.None))!;
}
