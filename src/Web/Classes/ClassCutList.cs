using KittingBee.Planning;
using KittingBee.Planning.Blocks;

namespace KittingBee.Web.Classes;

/// <summary>Makes a class's cut list from its own copy of the block.</summary>
public static class ClassCutList
{
    /// <summary>The block (null for typed lines), its cut list (null with problems) and what is wrong.</summary>
    public static (Block? Block, CutList? CutList, IReadOnlyList<Problem> Problems) Of(ClassMaterials materials)
    {
        if (materials.Record.BlockJson is not { } json)
        {
            return (null, null, [new Problem("typedLines", "A typed cut list cannot be read yet.")]);
        }

        var reading = BlockJson.Read(json);
        if (reading.Block is not { } block)
        {
            return (null, null, reading.Problems);
        }

        var result = CutLists.For(block, materials.Rules);
        return (block, result.CutList, result.Problems);
    }
}
