using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Checks the rules of a cut list; problems are named by the field of the rules.</summary>
public static class CuttingRulesChecks
{
    private static readonly Length Most = Length.FromInches(1);

    /// <summary>Everything wrong with the rules; empty when they are good.</summary>
    public static IReadOnlyList<Problem> Check(CuttingRules rules)
    {
        var problems = new List<Problem>();
        if (!rules.SeamAllowance.IsPositive || rules.SeamAllowance > Most)
        {
            problems.Add(new("seamAllowance", $"The seam allowance is {Sizes.Text(rules.SeamAllowance)}; it must be more than 0 and at most {Sizes.Text(Most)}."));
        }

        if (!rules.CuttingStep.IsPositive || rules.CuttingStep > Most)
        {
            problems.Add(new("cuttingStep", $"The cutting step is {Sizes.Text(rules.CuttingStep)}; it must be more than 0 and at most {Sizes.Text(Most)}."));
        }

        if (rules.BlocksPerKit is < 1 or > BlockLimits.Copies)
        {
            problems.Add(new("blocksPerKit", $"A kit holds {rules.BlocksPerKit} blocks; it must be 1 to {BlockLimits.Copies}."));
        }

        if (rules.UsableWidth < Most || rules.UsableWidth > BlockLimits.Side)
        {
            problems.Add(new("usableWidth", $"The usable width is {Sizes.Text(rules.UsableWidth)}; it must be {Sizes.Text(Most)} to {Sizes.Text(BlockLimits.Side)}."));
        }

        return problems;
    }
}
