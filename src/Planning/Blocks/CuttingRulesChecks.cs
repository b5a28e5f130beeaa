using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Checks the rules of a cut list; problems are named by the field of the rules.</summary>
public static class CuttingRulesChecks
{
    private static readonly Length Most = Length.FromInches(1);

    // Half of the finest marks on a metric ruler; it lets 1/32 in through as well.
    private static readonly Length FinestStep = Length.FromMillimetres(0.5m);

    /// <summary>Cloth is not woven wider (the widest backings are about 108 to 118 in; common practice, no source).</summary>
    public static Length WidestCloth { get; } = Length.FromInches(120);

    /// <summary>Everything wrong with the rules; empty when they are good.</summary>
    public static IReadOnlyList<Problem> Check(CuttingRules rules)
    {
        var problems = new List<Problem>();
        if (!rules.SeamAllowance.IsPositive || rules.SeamAllowance > Most)
        {
            problems.Add(new("seamAllowance", $"The seam allowance is {Sizes.Text(rules.SeamAllowance)}; it must be more than 0 and at most {Sizes.Text(Most)}."));
        }

        if (rules.CuttingStep < FinestStep || rules.CuttingStep > Most)
        {
            problems.Add(new("cuttingStep", $"The cutting step is {rules.CuttingStep}; it must be at least 1/32″ or 0.5 mm and at most {Sizes.Text(Most)}. Take the finest marks of your ruler, such as 1/8 in or 1 mm."));
        }

        if (rules.BlocksPerKit is < 1 or > BlockLimits.Copies)
        {
            problems.Add(new("blocksPerKit", $"A kit holds {rules.BlocksPerKit} blocks; it must be 1 to {BlockLimits.Copies}."));
        }

        if (rules.UsableWidth < Most || rules.UsableWidth > WidestCloth)
        {
            problems.Add(new("usableWidth", $"The usable width is {Sizes.Text(rules.UsableWidth)}; it must be {Sizes.Text(Most)} to {Sizes.Text(WidestCloth)}."));
        }

        return problems;
    }
}
