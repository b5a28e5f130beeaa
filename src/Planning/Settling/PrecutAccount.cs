using KittingBee.Planning.Pricing;

namespace KittingBee.Planning.Settling;

/// <summary>The account of one kind of precut, by number. It always closes: bought = used + left + difference.</summary>
/// <param name="Name">What it is.</param>
/// <param name="Bought">Bought and taken from the shelf.</param>
/// <param name="Used">In handed-over kits, planned or re-cut.</param>
/// <param name="Left">Counted after the class.</param>
/// <param name="PriceEach">What one cost.</param>
public sealed record PrecutAccount(string Name, int Bought, int Used, int Left, decimal PriceEach)
{
    /// <summary>Above zero: missing. Below zero: more than expected.</summary>
    public int Difference => Bought - Used - Left;

    /// <summary>What the difference cost, to the cent.</summary>
    public decimal DifferenceMoney => Cents.Nearest(Difference * PriceEach);
}
