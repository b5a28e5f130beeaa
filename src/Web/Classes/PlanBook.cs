using System.Collections.Concurrent;
using KittingBee.Planning.Cutting;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>One fabric's cutting problem.</summary>
/// <param name="FabricId">The fabric's number on the shelf.</param>
/// <param name="Request">Cloth and pieces.</param>
/// <param name="ShelfPieceIds">Which pieces on the shelf the request's sheets are, in order.</param>
/// <param name="Format">Code of its kit format; null for cut pieces.</param>
/// <param name="IsBought">True where it is bought precut.</param>
public sealed record FabricRequest(long FabricId, CuttingRequest Request, IReadOnlyList<long> ShelfPieceIds, string? Format = null, bool IsBought = false);

/// <summary>The cloth that a stored plan was made from.</summary>
public sealed record KeptCloth(CuttingStock Stock, IReadOnlyList<long> ShelfPieceIds);

/// <summary>One fabric's cutting problem and its answer.</summary>
public sealed record FabricResult(FabricRequest Asked, CuttingResult Result)
{
    public long FabricId => Asked.FabricId;

    public CuttingRequest Request => Asked.Request;

    public IReadOnlyList<long> ShelfPieceIds => Asked.ShelfPieceIds;

    public string? Format => Asked.Format;

    public bool IsBought => Asked.IsBought;
}

/// <summary>
/// Cutting plans by what they were made from: a request that was planned before is not planned again. Plans of classes are
/// stored, and only after the checker found nothing wrong with them.
/// </summary>
public sealed class PlanBook(PlanStore store)
{
    // Enough for the curves of a few classes; the oldest half goes when it is full.
    private const int MostInMemory = 4000;

    private readonly ConcurrentDictionary<string, CuttingResult> inMemory = new(StringComparer.Ordinal);

    /// <summary>The cloth of a class's stored plans, by fabric.</summary>
    public IReadOnlyDictionary<long, KeptCloth> KeptClothOf(long classId) => store.ForClass(classId).ToDictionary(
        plan => plan.Key,
        plan => new KeptCloth(StoredJson.Read<CuttingRequest>(plan.Value.RequestJson).Stock, StoredJson.Read<IReadOnlyList<long>>(plan.Value.ShelfPieceIds)));

    /// <summary>Plans in the order of the requests; nothing is stored.</summary>
    public IReadOnlyList<FabricResult> Plan(IReadOnlyList<FabricRequest> requests) =>
        [.. requests.AsParallel().AsOrdered().Select(item => new FabricResult(item, Plan(item.Request)))];

    /// <summary>Plans of a class; those that are new are stored.</summary>
    public async Task<IReadOnlyList<FabricResult>> PlanAndKeep(long classId, IReadOnlyList<FabricRequest> requests)
    {
        var stored = store.ForClass(classId);
        foreach (var item in requests)
        {
            var hash = HashOf(item.Request);
            if (stored.TryGetValue(item.FabricId, out var kept) && kept.InputsHash == hash && !inMemory.ContainsKey(hash)
                && ReadChecked(item.Request, kept.PlanJson) is { } plan)
            {
                Remember(hash, new CuttingResult(plan, []));
            }
        }

        var results = Plan(requests);
        var fresh = results.Zip(requests)
            .Where(pair => pair.First.Result.Plan is not null)
            .Select(pair => Stored(classId, pair.First, pair.Second.ShelfPieceIds))
            .Where(plan => !stored.TryGetValue(plan.FabricId, out var kept) || kept.InputsHash != plan.InputsHash || kept.ShelfPieceIds != plan.ShelfPieceIds)
            .ToList();
        if (fresh.Count > 0)
        {
            await store.Put(fresh);
        }

        return results;
    }

    private static StoredPlan Stored(long classId, FabricResult item, IReadOnlyList<long> shelfPieceIds) => new()
    {
        ClassId = classId,
        FabricId = item.FabricId,
        InputsHash = HashOf(item.Request),
        RequestJson = StoredJson.Write(item.Request),
        PlanJson = StoredJson.Write(item.Result.Plan),
        ShelfPieceIds = StoredJson.Write(shelfPieceIds),
    };

    private CuttingResult Plan(CuttingRequest request)
    {
        var hash = HashOf(request);
        if (inMemory.TryGetValue(hash, out var known))
        {
            return known;
        }

        var result = CuttingPlanner.Plan(request);
        if (result.Plan is { } plan && PlanChecker.Check(request, plan) is [var fault, ..])
        {
            throw new InvalidOperationException($"A cutting plan failed its check and is not shown: {fault}");
        }

        Remember(hash, result);
        return result;
    }

    private void Remember(string hash, CuttingResult result)
    {
        if (inMemory.Count >= MostInMemory)
        {
            foreach (var key in inMemory.Keys.Take(MostInMemory / 2))
            {
                inMemory.TryRemove(key, out _);
            }
        }

        inMemory[hash] = result;
    }

    private static string HashOf(CuttingRequest request) => StoredJson.Hash(StoredJson.Write(request));

    private static CuttingPlan? ReadChecked(CuttingRequest request, string json)
    {
        try
        {
            var plan = StoredJson.Read<CuttingPlan>(json);
            return PlanChecker.Check(request, plan).Count == 0 ? plan : null;
        }
        catch (System.Text.Json.JsonException)
        {
            // Written by another version of the program: plan again.
            return null;
        }
    }
}
