namespace KittingBee.Planning.Pricing;

/// <summary>What a cost line is for.</summary>
public enum CostKind
{
    /// <summary>Cloth off the bolt.</summary>
    Fabric,

    /// <summary>Precuts.</summary>
    Precuts,

    /// <summary>Thread, needles, templates and other small things.</summary>
    Notions,

    /// <summary>Bags, labels, printing.</summary>
    PackagingAndPrinting,

    /// <summary>Cutting and packing.</summary>
    Labour,

    /// <summary>Room.</summary>
    Venue,

    /// <summary>The teacher's fee and travel.</summary>
    Teacher,

    /// <summary>Anything else.</summary>
    Other,
}

/// <summary>What a cost grows with.</summary>
public enum CostBasis
{
    /// <summary>Paid once for the class.</summary>
    PerClass,

    /// <summary>Paid for every kit made, spares and samples too.</summary>
    PerKit,

    /// <summary>Paid for every student.</summary>
    PerStudent,
}

/// <summary>One cost of a class.</summary>
/// <param name="Kind">What it is for.</param>
/// <param name="Name">In the class's words.</param>
/// <param name="Amount">Money, at least 0, for each of its basis.</param>
/// <param name="Basis">What it grows with.</param>
/// <param name="Above">Counts only from the kit or student after this number: a teacher's extra for each student above 20.</param>
public sealed record CostLine(CostKind Kind, Sentence Name, decimal Amount, CostBasis Basis, int Above = 0)
{
    /// <summary>Working time at a rate by the hour. It is rounded only when it is counted: 5 min at $20 an hour for 12 kits is $20.00.</summary>
    public static CostLine Labour(Sentence name, decimal minutes, decimal ratePerHour, CostBasis basis) =>
        new(CostKind.Labour, name, minutes * ratePerHour / 60m, basis);

    /// <summary>Money for so many kits and students, to the cent.</summary>
    public decimal For(int kits, int students) => Cents.Nearest(Amount * Basis switch
    {
        CostBasis.PerClass => 1,
        CostBasis.PerKit => Math.Max(0, kits - Above),
        _ => Math.Max(0, students - Above),
    });

    /// <summary>What is wrong with the line, if anything.</summary>
    internal IEnumerable<Problem> Problems(string field)
    {
        if (Amount is < 0 or > MoneyLimits.Most)
        {
            yield return new(field, $"“{Name}” costs {Amount}. Give 0 to {MoneyLimits.Most:N0}.");
        }

        if (Above < 0)
        {
            yield return new(field, $"“{Name}” counts above {Above}. Give 0 or more.");
        }
    }
}

/// <summary>Beyond these a figure is a slip of the keyboard.</summary>
internal static class MoneyLimits
{
    /// <summary>The most money of one line.</summary>
    public const decimal Most = 10_000_000m;

    /// <summary>The most students or kits of a class.</summary>
    public const int MostKits = 100_000;
}
