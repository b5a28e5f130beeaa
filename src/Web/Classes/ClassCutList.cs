using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Classes;

/// <summary>What a class sews, read from how it is stored.</summary>
/// <param name="Block">The block; null for typed lines.</param>
/// <param name="Project">What the blocks are set into; null where the kit is of blocks alone.</param>
/// <param name="CutList">All pieces of one kit; null with <paramref name="Problems"/>.</param>
/// <param name="Problems">What is wrong.</param>
public sealed record ClassCutList(Block? Block, Project? Project, CutList? CutList, IReadOnlyList<Problem> Problems)
{
    /// <summary>Of a class's own copies.</summary>
    public static ClassCutList Of(ClassMaterials materials) =>
        Of(materials.Record.BlockJson, materials.Record.TypedLines, materials.Record.ProjectJson, materials.Rules);

    /// <summary>Of a pattern as it is stored: a block, typed lines, or a block with its project.</summary>
    public static ClassCutList Of(string? json, string? typedLines, string? projectJson, CuttingRules rules)
    {
        if (json is null)
        {
            var typed = TypedCutList.Read(typedLines, rules, rules.Metric ? LengthUnit.Centimetre : LengthUnit.Inch);
            return new(null, null, typed.CutList, typed.Problems);
        }

        var reading = BlockJson.Read(json);
        if (reading.Block is not { } block)
        {
            return new(null, null, null, reading.Problems);
        }

        if (projectJson is null)
        {
            var result = CutLists.For(block, rules);
            return new(block, null, result.CutList, result.Problems);
        }

        var project = ProjectJson.Read(projectJson);
        if (project.Project is not { } read)
        {
            return new(block, null, null, project.Problems);
        }

        var whole = ProjectCutLists.For(block, read, rules);
        return new(block, read, whole.CutList, whole.Problems);
    }
}
