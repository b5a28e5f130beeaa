using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>
/// The seam test: equal strips sewn side by side must come out at a known width, and each inner strip at its finished width.
/// k strips of width w joined by seams with allowance s measure k·w − 2·s·(k − 1); an inner strip w − 2·s (geometry).
/// </summary>
/// <param name="Strips">How many strips; at least 2.</param>
/// <param name="StripWidth">Cut width of each.</param>
/// <param name="SeamAllowance">Allowance on each side.</param>
public sealed record SeamTest(int Strips, Length StripWidth, Length SeamAllowance)
{
    /// <summary>What the joined strips must measure.</summary>
    public Length JoinedWidth => (Strips * StripWidth) - (2 * (Strips - 1) * SeamAllowance);

    /// <summary>What an inner strip must measure between its seams.</summary>
    public Length InnerWidth => StripWidth - (2 * SeamAllowance);
}
