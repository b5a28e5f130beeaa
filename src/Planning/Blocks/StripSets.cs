using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>
/// Strips sewn side by side and cut across into segments. A set is no longer than the usable width of the cloth; more
/// segments take more sets, shared out as evenly as whole segments allow.
/// </summary>
internal sealed record StripSets(IReadOnlyList<MadePiece> Pieces, Length Segment, int Segments, int Sets, CuttingRules Rules)
{
    public static StripSets For(
        IReadOnlyList<string> letters, IReadOnlyList<Length> widths, Length segment, int segments, Sentence use, CuttingRules rules)
    {
        var most = (int)Math.Max(1, rules.UsableWidth.CountOf(segment));
        var sets = Making.Squares(segments, most);
        var (fewer, longer) = Math.DivRem(segments, sets);
        var pieces = new List<MadePiece>();
        for (var strip = 0; strip < letters.Count; strip++)
        {
            var height = CutSizes.Patch(widths[strip], rules);
            if (longer > 0)
            {
                pieces.Add(new(letters[strip], segment * (fewer + 1), height, longer, use, IsStrip: true));
            }

            pieces.Add(new(letters[strip], segment * fewer, height, sets - longer, use, IsStrip: true));
        }

        return new(pieces, segment, segments, sets, rules);
    }

    public Sentence Text(string order) =>
        $"sew {Many(Sets)} in the order {order}, press, and cut {(Segments == 1 ? (Sentence)"1 segment" : $"{Segments} segments")} {Sizes.Text(Segment, Rules)} wide.";

    private static Sentence Many(int sets) => sets == 1 ? (Sentence)"a strip set" : $"{sets} strip sets";
}
