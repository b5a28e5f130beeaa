using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Classes;

/// <summary>Makes a cut list from a block as it is stored.</summary>
public static class ClassCutList
{
    /// <summary>Of a class's own copy.</summary>
    public static (Block? Block, CutList? CutList, IReadOnlyList<Problem> Problems) Of(ClassMaterials materials) =>
        Of(materials.Record.BlockJson, materials.Record.TypedLines, materials.Rules);

    /// <summary>The block (null for typed lines), its cut list (null with problems) and what is wrong.</summary>
    public static (Block? Block, CutList? CutList, IReadOnlyList<Problem> Problems) Of(string? json, string? typedLines, CuttingRules rules)
    {
        if (json is null)
        {
            var typed = TypedCutList.Read(typedLines, rules, rules.Metric ? LengthUnit.Centimetre : LengthUnit.Inch);
            return (null, typed.CutList, typed.Problems);
        }

        var reading = BlockJson.Read(json);
        if (reading.Block is not { } block)
        {
            return (null, null, reading.Problems);
        }

        var result = CutLists.For(block, rules);
        return (block, result.CutList, result.Problems);
    }
}
