namespace KittingBee.Planning.Blocks;

/// <summary>Makes cut lists from blocks.</summary>
public static class CutLists
{
    /// <summary>Checks the block and makes its cut list. Bad input comes back as problems that name the unit and the cell.</summary>
    public static CutListResult For(Block block, CuttingRules rules)
    {
        IReadOnlyList<Problem> problems = [.. CuttingRulesChecks.Check(rules), .. BlockChecks.Check(block)];
        if (problems.Count > 0)
        {
            return new(null, problems);
        }

        var placed = PlacedBlock.Of(block);
        var groups = UnitGroup.Of(placed, rules);
        var both = rules.SeamAllowance * 2;
        return new(
            new(
                placed.Width + both,
                placed.Height + both,
                KitPieces.Of(block.Fabrics, groups.SelectMany(group => group.Making.Pieces)),
                [.. groups.Select(group => group.Report(rules)).OfType<UnitReport>()],
                SewingSteps.For(placed, groups, rules)),
            []);
    }
}
