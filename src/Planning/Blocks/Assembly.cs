namespace KittingBee.Planning.Blocks;

/// <summary>How the parts of a piece are joined.</summary>
public enum JoinKind
{
    /// <summary>Nothing to join: one unit.</summary>
    Unit,

    /// <summary>Left to right, by upright seams.</summary>
    SideBySide,

    /// <summary>Top to bottom, by level seams.</summary>
    Stacked,

    /// <summary>No seam runs edge to edge: one seam is sewn in part, and finished last.</summary>
    PartialSeam,
}

/// <summary>A piece of the assembly: a unit, or parts joined along seams that run edge to edge.</summary>
/// <param name="Column">Leftmost grid column, from 0.</param>
/// <param name="Row">Topmost grid row, from 0.</param>
/// <param name="ColumnSpan">Grid columns covered.</param>
/// <param name="RowSpan">Grid rows covered.</param>
/// <param name="Join">How the parts are joined.</param>
/// <param name="Unit">The unit's number, counted from 1 in the block's order; 0 for a joined piece.</param>
/// <param name="Parts">In sewing order: left to right, top to bottom; empty for a unit.</param>
public sealed record AssemblyPiece(
    int Column, int Row, int ColumnSpan, int RowSpan, JoinKind Join, int Unit, IReadOnlyList<AssemblyPiece> Parts)
{
    /// <summary>Rounds of joining needed: 0 for a unit.</summary>
    public int Depth => Parts.Count == 0 ? 0 : 1 + Parts.Max(part => part.Depth);

    /// <summary>This piece and every piece in it, parts before wholes.</summary>
    public IEnumerable<AssemblyPiece> PartsFirst() => Parts.SelectMany(part => part.PartsFirst()).Append(this);
}

/// <summary>Finds the order in which a block is sewn together, in the fewest rounds of joining.</summary>
public static class Assembly
{
    /// <summary>
    /// The assembly of a block that <see cref="BlockChecks"/> has found good; nested blocks count as units.
    /// Throws <see cref="ArgumentException"/> on a block that has problems.
    /// </summary>
    public static AssemblyPiece For(Block block)
    {
        if (BlockChecks.Check(block) is [var problem, ..])
        {
            throw new ArgumentException(problem.Message, nameof(block));
        }

        return For(PlacedBlock.Of(block));
    }

    internal static AssemblyPiece For(PlacedBlock block) => AssemblySearch.Of(block);
}
