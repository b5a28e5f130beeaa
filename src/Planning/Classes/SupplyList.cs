using KittingBee.Planning.Blocks;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Classes;

/// <summary>What a student who brings the fabric has to buy of one letter.</summary>
/// <param name="Letter">The fabric's letter.</param>
/// <param name="Name">Its name in the block.</param>
/// <param name="Length">Length off the bolt, in shop increments; null where no length gives every piece.</param>
/// <param name="FatQuarters">Fat quarters instead; null where a piece is larger than one.</param>
/// <param name="Why">Why one of the two is missing, naming the piece; or null.</param>
public sealed record SupplyLine(string Letter, string Name, Length? Length, int? FatQuarters, Sentence? Why)
{
    /// <summary>The reason as programs read it, or null.</summary>
    public string? Reason => Why?.ToString();
}

/// <summary>The supply list of a class whose students bring their own fabric.</summary>
public static class SupplyList
{
    /// <summary>One kit's fabrics, each as a length and as fat quarters. Letters without pieces are left out.</summary>
    /// <param name="perKit">The cut list of one kit.</param>
    /// <param name="bolt">How the students' shop sells cloth; a narrow usable width is on the safe side.</param>
    /// <param name="fatQuarter">The size of a fat quarter to count on; a small one is on the safe side.</param>
    /// <param name="directional">True where students may bring prints with a direction.</param>
    /// <param name="style">How lengths are written in reasons.</param>
    public static IReadOnlyList<SupplyLine> For(CutList perKit, BoltStock bolt, Precut fatQuarter, bool directional, LengthStyle style = LengthStyle.Eighths) =>
        [.. perKit.Fabrics.Where(fabric => fabric.Pieces.Count > 0).Select(fabric => Line(fabric, bolt, fatQuarter, directional, style))];

    private static SupplyLine Line(FabricCutList fabric, BoltStock bolt, Precut fatQuarter, bool directional, LengthStyle style)
    {
        var pieces = fabric.Pieces.Select(piece => new CutPiece($"{fabric.Letter}: {PieceNames.Size(piece.Width, piece.Height, style)}", piece.Width, piece.Height, piece.Count));
        var result = KitFormats.Compare(new([.. pieces], 1)
        {
            Bolt = bolt,
            Precuts = [fatQuarter],
            Formats = [FormatCodes.Yardage, fatQuarter.Format],
            Directional = directional,
            Style = style,
        });
        if (result.Problems.Count > 0)
        {
            return new(fabric.Letter, fabric.Name, null, null, result.Problems[0].Said);
        }

        var yardage = result.Formats.Single(option => option.Format == FormatCodes.Yardage);
        var quarters = result.Formats.Single(option => option.Format == fatQuarter.Format);
        return new(fabric.Letter, fabric.Name, yardage.LengthPerKit, quarters.PerKit, yardage.Why ?? quarters.Why);
    }
}
