namespace KittingBee.Planning.Pricing;

/// <summary>What the kits of a class cost to make.</summary>
/// <param name="Kits">Kits made: students, spares and samples; at least 1.</param>
/// <param name="PaidKits">Kits that somebody pays for; the others' cost is carried by these.</param>
/// <param name="FabricBought">Money for all cloth as bought, in shop increments and packs.</param>
/// <param name="FabricUsed">Money for the cloth that the plans use, at the same prices; the rest goes to the shelf.</param>
/// <param name="Lines">All other costs of the kits. Costs of the class itself, such as the room, belong to <see cref="ClassMoney"/>.</param>
public sealed record KitCostRequest(int Kits, int PaidKits, decimal FabricBought, decimal FabricUsed, IReadOnlyList<CostLine> Lines);

/// <summary>One line of a kit's cost.</summary>
/// <param name="Kind">What it is for.</param>
/// <param name="Name">In words.</param>
/// <param name="Class">Money for the class.</param>
/// <param name="PerKit">Money for one paid kit; the lines add up to the whole to the cent.</param>
public sealed record KitCostLine(CostKind Kind, Sentence Name, decimal Class, decimal PerKit);

/// <summary>A kit's cost, or what is wrong with the figures.</summary>
public sealed record KitCostResult(KitCost? Cost, IReadOnlyList<Problem> Problems);

/// <summary>The cost of one kit.</summary>
/// <param name="Lines">By line, fabric as bought first.</param>
/// <param name="Total">Money for all kits, fabric as bought.</param>
/// <param name="PerKit">Total ÷ paid kits, rounded up to the cent, so that the kits carry the whole.</param>
/// <param name="PerKitAsUsed">The same with fabric as used.</param>
public sealed record KitCost(IReadOnlyList<KitCostLine> Lines, decimal Total, decimal PerKit, decimal PerKitAsUsed)
{
    private const decimal OneCent = 0.01m;

    /// <summary>Adds up the costs. Where nobody pays, all kits made share the cost.</summary>
    public static KitCostResult For(KitCostRequest request)
    {
        var problems = Check(request).ToList();
        if (problems.Count > 0)
        {
            return new(null, problems);
        }

        var paid = request.PaidKits == 0 ? request.Kits : request.PaidKits;
        List<(CostKind Kind, Sentence Name, decimal Class)> lines =
        [
            (CostKind.Fabric, "Fabric as bought", Cents.Nearest(request.FabricBought)),
            .. request.Lines.Select(line => (line.Kind, line.Name, line.For(request.Kits, request.PaidKits))),
        ];
        var total = lines.Sum(line => line.Class);
        var perKit = Cents.UpTo(total / paid, OneCent);
        IReadOnlyList<decimal> shares = total == 0 ? [.. lines.Select(_ => 0m)] : Cents.Share(perKit, [.. lines.Select(line => line.Class)]);
        return new(
            new(
                [.. lines.Zip(shares, (line, share) => new KitCostLine(line.Kind, line.Name, line.Class, share))],
                total,
                perKit,
                Cents.UpTo((total - lines[0].Class + Cents.Nearest(request.FabricUsed)) / paid, OneCent)),
            []);
    }

    private static IEnumerable<Problem> Check(KitCostRequest request)
    {
        if (request.Kits is < 1 or > MoneyLimits.MostKits)
        {
            yield return new("kits", $"A cost for {request.Kits} kits cannot be worked out. Give 1 to {MoneyLimits.MostKits:N0}.");
        }

        if (request.PaidKits < 0 || request.PaidKits > request.Kits)
        {
            yield return new("paidKits", $"{request.PaidKits} of {request.Kits} kits cannot be paid for. Give 0 to {request.Kits}.");
        }

        if (request.FabricBought is < 0 or > MoneyLimits.Most)
        {
            yield return new("fabricBought", $"Fabric for {request.FabricBought} cannot be bought. Give 0 to {MoneyLimits.Most:N0}.");
        }

        if (request.FabricUsed < 0 || request.FabricUsed > request.FabricBought)
        {
            yield return new("fabricUsed", $"Fabric used for {request.FabricUsed} is not between 0 and what was bought, {request.FabricBought}. Check both.");
        }

        foreach (var problem in request.Lines.SelectMany((line, index) => line.Problems($"lines[{index}].amount")))
        {
            yield return problem;
        }
    }
}
