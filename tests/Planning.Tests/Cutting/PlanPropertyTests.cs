using CsCheck;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Cutting.Cloth;

namespace KittingBee.Planning.Tests.Cutting;

/// <summary>What must hold of every plan, whatever is asked. Each plan also goes through the checker (widths, demand, surplus, money, strokes).</summary>
public sealed class PlanPropertyTests
{
    private static Gen<decimal> OneOf(params decimal[] values) => Gen.Int[0, values.Length - 1].Select(index => values[index]);

    private static readonly Gen<CutPiece> APiece =
        Gen.Select(Gen.Int[8, 100], Gen.Int[8, 100], Gen.Int[1, 60], Gen.Int[0, 3]).Select((width, height, count, turn) =>
            new CutPiece($"{width}/8 × {height}/8", Length.FromInches(0, width, 8), Length.FromInches(0, height, 8), count, turn > 0));

    private static readonly Gen<CuttingRequest> ABoltRequest =
        Gen.Select(APiece.Array[1, 8], Gen.Int[320, 352], Gen.Int[1, 8], Gen.Bool, OneOf(24m, 12.5m, 6.5m), OneOf(0m, 0.03m, 0.0625m))
            .Select((pieces, width, layers, directional, longest, shrinkage) => new CuttingRequest(
                new CuttingStock(new BoltStock(Length.FromInches(0, width, 8), In(4.5m), In(9), 11.95m), [], shrinkage, shrinkage, In(0.5m)), pieces)
            {
                Layers = layers,
                Directional = directional,
                LongestStrip = In(longest),

                // Work ends the search long before; a busy machine needs the room.
                TimeAllowance = TimeSpan.FromSeconds(10),
            });

    [Fact]
    public void Plan_AnyBoltRequest_IsValidAboveItsFloorAndNoDearerThanTheHandbooks() => ABoltRequest.Sample(
        request =>
        {
            var plan = Proved(request);
            var compared = OneSizePerStrip.Buy(request)!;
            Assert.Equal(compared, plan.OneSizePerStrip);
            Assert.True(plan.Buy.Cost <= compared.Cost, $"{plan.Buy} against {compared}");

            // The pieces' own area is a bound that the floor must not be under, to the tick: it is rounded up, as lengths are whole ticks.
            var width = Buying.BoltWidth(request.Stock);
            var area = request.Pieces.Aggregate(Int128.Zero, (sum, piece) => sum + ((Int128)piece.Width.Ticks * piece.Height.Ticks * piece.Count));
            Assert.True((Int128)plan.Length.Ticks * width.Ticks >= area);
            Assert.True((Int128)plan.Floor.Ticks * width.Ticks >= area, $"floor {plan.Floor}");
            Assert.True(plan.Floor <= plan.Length);
        },
        iter: 60, threads: 1, seed: "0N0XIzNsQ0O2");

    [Fact]
    public void Plan_SameRequestTwice_IsTheSamePlan() => ABoltRequest.Sample(
        request => Assert.Equal(Written(ProvedByWork(request)), Written(ProvedByWork(request))), iter: 10, threads: 1, seed: "0N0XIzNsQ0O2");

    [Fact]
    public void Plan_OfEitherObjective_CostsTheSameAndIsNotFarBehindInWhatItAsksFor() => ABoltRequest.Sample(
        request =>
        {
            var shortest = ProvedByWork(request with { Objective = CuttingObjective.LeastLength });
            var easiest = ProvedByWork(request);
            Assert.Equal(shortest.Buy, easiest.Buy);

            // Neither is proved where the case is not small, so the other objective's plan may be better by luck: in strokes by 15 in
            // 100 in one of 200 mixed classes (DEVELOPERS.md).
            Assert.True(shortest.Length.Ticks * 1000 <= easiest.Length.Ticks * 1001, $"{shortest.Length} against {easiest.Length}");
            Assert.True(easiest.Strokes * 100 <= shortest.Strokes * 125, $"{easiest.Strokes} against {shortest.Strokes}");
            Assert.True(easiest.Floor <= shortest.Length);
        },
        iter: 20, threads: 1, seed: "0N0XIzNsQ0O2");

    [Fact]
    public void Plan_ManyTimesTheClass_TakesHardlyMoreThanAsManyPlans() => Gen.Select(ABoltRequest, Gen.Int[2, 200]).Sample(
        (request, times) =>
        {
            var once = Proved(request with { Objective = CuttingObjective.LeastLength });
            var many = Proved(request with
            {
                Objective = CuttingObjective.LeastLength,
                Pieces = [.. request.Pieces.Select(piece => piece with { Count = piece.Count * times })],
            });

            // The remainder is searched, not proved: three in a thousand is what a plan may lose.
            Assert.True(many.Length * 1000 <= once.Length * times * 1003, $"{many.Length} against {times} × {once.Length}");
            Assert.True(many.Floor <= once.Length * times);
        },
        iter: 20, threads: 1, seed: "0N0XIzNsQ0O2");

    [Fact]
    public void Plan_BoltAndShelf_CostsNoMoreThanTheBoltAlone() => Gen.Select(ABoltRequest, Gen.Int[0, 5], OneOf(0m, 3.25m)).Sample(
        (request, available, price) =>
        {
            var both = Proved(request with { Stock = request.Stock with { Sheets = [Sheet("fat quarter", 21, 18, available, price)] } });
            var alone = Proved(request);
            Assert.True(both.Buy.Cost <= alone.Buy.Cost, $"{both.Buy} against {alone.Buy}");
        },
        iter: 20, threads: 1, seed: "0N0XIzNsQ0O2");

    /// <summary>A plan as text: records of lists compare by reference.</summary>
    private static string Written(CuttingPlan plan) => System.Text.Json.JsonSerializer.Serialize(plan);
}
