using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Makes the cut list of a whole project: its blocks, and everything around them.</summary>
public static class ProjectCutLists
{
    /// <summary>
    /// Checks block, rules and project and makes the cut list. The rules' blocks per kit are not used: the project says how
    /// many blocks it takes. Problems of the project have fields that start with <c>project.</c>.
    /// </summary>
    public static ProjectResult For(Block block, Project project, CuttingRules rules)
    {
        List<Problem> problems = [.. CuttingRulesChecks.Check(rules with { BlocksPerKit = 1 }), .. BlockChecks.Check(block)];
        if (problems.Count == 0)
        {
            problems.AddRange(ProjectChecks.Check(block, project).Select(problem => problem with { Field = "project." + problem.Field }));
        }

        if (problems.Count > 0)
        {
            return new(null, Length.Zero, Length.Zero, [], problems);
        }

        var placed = PlacedBlock.Of(block);
        var perProject = rules with { BlocksPerKit = project.Blocks };
        var groups = UnitGroup.Of(placed, perProject);
        var work = new ProjectWork(placed, project, rules);
        work.Do();
        var both = rules.SeamAllowance * 2;
        var steps = SewingSteps.For(placed, groups, perProject).ToList();
        var inBlocks = steps.Count; // Asked once: the list grows while the project's own steps are numbered.
        steps.AddRange(work.Steps.Select((step, index) => step with { Number = index + 1 + inBlocks }));
        return new(
            new(
                work.Width + both,
                work.Height + both,
                KitPieces.Of([.. block.Fabrics, .. project.Fabrics], groups.SelectMany(group => group.Making.Pieces).Concat(work.Pieces)),
                [.. groups.Select(group => group.Report(perProject)).OfType<UnitReport>()],
                steps),
            work.Width,
            work.Height,
            work.Notes,
            []);
    }
}
