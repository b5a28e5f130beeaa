namespace KittingBee.Web.Classes;

/// <summary>How many kits each colourway has.</summary>
public static class KitNumbers
{
    /// <summary>Kits of each colourway as the class stands; kits without a colourway are not counted.</summary>
    public static IReadOnlyDictionary<long, int> Of(ClassPlan plan) => plan.Kits
        .Where(kit => plan.ColourwayOf(kit) is not null)
        .CountBy(kit => kit.ColourwayId!.Value)
        .ToDictionary();

    /// <summary>
    /// The class's kits brought to another total: further kits go to the colourways in the shares that they have now, the
    /// largest remainder first; a class without kits shares evenly.
    /// </summary>
    public static IReadOnlyDictionary<long, int> Scaled(ClassPlan plan, int kits)
    {
        var now = Of(plan);
        var weights = plan.Colourways.ToDictionary(
            colourway => colourway.ColourwayId,
            colourway => now.Count == 0 ? 1 : now.GetValueOrDefault(colourway.ColourwayId));
        var total = weights.Values.Sum(weight => (long)weight);
        if (total == 0)
        {
            return new Dictionary<long, int>();
        }

        var shares = weights.ToDictionary(weight => weight.Key, weight => (int)((long)kits * weight.Value / total));
        var rest = kits - shares.Values.Sum();
        foreach (var id in weights.Keys.OrderByDescending(id => (long)kits * weights[id] % total).ThenBy(id => id).Take(rest).ToList())
        {
            shares[id]++;
        }

        return shares;
    }
}
