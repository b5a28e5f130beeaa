using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>
/// Cut sizes from geometry. With allowance s on each side, a right isosceles triangle with finished legs f needs legs of
/// f + s(2 + √2), one with finished hypotenuse f needs a hypotenuse of f + 2s(1 + √2). Each of these allowances is rounded up
/// to the cutting step, and so is the sum. √2 is never shortened: roots are whole-number roots, rounded up to the tick.
/// All finished sizes must be above zero and at most 10,000 in.
/// </summary>
public static class CutSizes
{
    /// <summary>A sum that is over a step by less than 1/256 in counts as on it.</summary>
    private const long NegligiblePartsPerInch = 256;

    /// <summary>A straight side: f + 2s, rounded up to the step.</summary>
    public static Length Patch(Length finished, CuttingRules rules) => UpToStep(finished + Both(rules), rules);

    /// <summary>Square whose half is a triangle with finished legs f: f + s(2 + √2).</summary>
    public static Length HalfSquare(Length finished, CuttingRules rules) =>
        UpToStep(finished + HalfSquareAllowance(rules), rules);

    /// <summary>Square whose quarter is a triangle with finished hypotenuse f: f + 2s(1 + √2).</summary>
    public static Length QuarterSquare(Length finished, CuttingRules rules) =>
        UpToStep(finished + QuarterSquareAllowance(rules), rules);

    /// <summary>The half-square size with room to trim: f + 1 in (f + 2.5 cm), never less than the exact size.</summary>
    public static Length HalfSquareOversize(Length finished, CuttingRules rules) =>
        Length.Max(
            UpToStep(finished + (rules.Metric ? Length.FromMillimetres(25) : Length.FromInches(1)), rules),
            HalfSquare(finished, rules));

    /// <summary>The quarter-square size with room to trim: f + 1½ in (f + 3.8 cm), never less than the exact size.</summary>
    public static Length QuarterSquareOversize(Length finished, CuttingRules rules) =>
        Length.Max(
            UpToStep(finished + (rules.Metric ? Length.FromMillimetres(38) : Length.FromInches(1, 1, 2)), rules),
            QuarterSquare(finished, rules));

    /// <summary>Square patch on point in a square of finished side f: f/√2 + 2s.</summary>
    public static Length OnPointCentre(Length finished, CuttingRules rules) =>
        UpToStep(DividedByRootTwo(finished) + Both(rules), rules);

    /// <summary>Square to cut twice into four side setting triangles for blocks of finished side f: f√2 + 2s(1 + √2).</summary>
    public static Length SideSetting(Length block, CuttingRules rules) =>
        UpToStep(TimesRootTwo(block) + QuarterSquareAllowance(rules), rules);

    /// <summary>Square to cut once into two corner setting triangles for blocks of finished side f: f/√2 + s(2 + √2).</summary>
    public static Length CornerSetting(Length block, CuttingRules rules) =>
        UpToStep(DividedByRootTwo(block) + HalfSquareAllowance(rules), rules);

    /// <summary>The length times √2, rounded up to the tick: the diagonal of a square.</summary>
    public static Length TimesRootTwo(Length length) => Length.FromTicks(RootRoundedUp(2 * (Int128)length.Ticks * length.Ticks));

    /// <summary>The length divided by √2, rounded up to the tick.</summary>
    public static Length DividedByRootTwo(Length length)
    {
        var square = (Int128)length.Ticks * length.Ticks;
        return Length.FromTicks(RootRoundedUp((square + 1) / 2));
    }

    /// <summary>Rounds up to the cutting step, save for an excess under 1/256 in.</summary>
    internal static Length UpToStep(Length exact, CuttingRules rules)
    {
        var below = exact.RoundDownTo(rules.CuttingStep);
        var excess = exact - below;
        return excess.Ticks * NegligiblePartsPerInch < Length.TicksPerInch && below.IsPositive ? below : exact.RoundUpTo(rules.CuttingStep);
    }

    private static Length Both(CuttingRules rules) => rules.SeamAllowance * 2;

    private static Length HalfSquareAllowance(CuttingRules rules) =>
        (Both(rules) + TimesRootTwo(rules.SeamAllowance)).RoundUpTo(rules.CuttingStep);

    private static Length QuarterSquareAllowance(CuttingRules rules) =>
        (Both(rules) + TimesRootTwo(Both(rules))).RoundUpTo(rules.CuttingStep);

    /// <summary>Least whole number whose square is not less than the value.</summary>
    private static long RootRoundedUp(Int128 square)
    {
        if (square <= 1)
        {
            return (long)square;
        }

        // Newton's iteration on whole numbers falls to the root rounded down.
        var root = square;
        for (var next = (root + 1) / 2; next < root; next = (root + (square / root)) / 2)
        {
            root = next;
        }

        return (long)(root * root < square ? root + 1 : root);
    }
}
