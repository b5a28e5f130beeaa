using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Strips longer than the cloth is wide, joined from strips across its width; each join costs two allowances.</summary>
public static class JoinedStrips
{
    /// <summary>Beyond the perimeter, for corners, joins and the last overlap.</summary>
    private static readonly Length BindingExtra = Length.FromInches(10);

    /// <summary>The least that must be left over for corners and overlap once the joins are taken off.</summary>
    private static readonly Length BindingOverlap = Length.FromInches(4);

    /// <summary>How many strips of the usable width, joined end to end, give a length.</summary>
    public static int Count(Length length, Length usableWidth, Length seamAllowance)
    {
        if (length <= usableWidth)
        {
            return 1;
        }

        // n strips give n·U − (n − 1)·2s.
        var join = seamAllowance * 2;
        var gain = usableWidth - join;
        return gain.IsPositive
            ? checked((int)-(join - length).CountOf(gain))
            : throw new ArgumentOutOfRangeException(nameof(usableWidth), "The usable width must be more than two allowances.");
    }

    /// <summary>
    /// Strips for binding a quilt: perimeter + 10 in, in whole strips (the 10 in covers corners, joins and overlap); one more
    /// where very many joins would eat it up.
    /// </summary>
    public static int ForBinding(Length width, Length height, Length usableWidth, Length seamAllowance)
    {
        var perimeter = (width + height) * 2;
        return Math.Max(
            checked((int)-(-(perimeter + BindingExtra)).CountOf(usableWidth)),
            Count(perimeter + BindingOverlap, usableWidth, seamAllowance));
    }

    /// <summary>
    /// The pieces for some long strips of one height: those that fit across the cloth are cut whole, the longer ones are cut
    /// from one joined length.
    /// </summary>
    internal static IEnumerable<MadePiece> Pieces(string letter, IReadOnlyList<Length> cutLengths, Length cutHeight, Sentence use, CuttingRules rules)
    {
        foreach (var same in cutLengths.Where(length => length <= rules.UsableWidth).GroupBy(length => length))
        {
            yield return new(letter, same.Key, cutHeight, same.Count(), use, IsStrip: true);
        }

        var longer = cutLengths.Where(length => length > rules.UsableWidth).ToList();
        if (longer.Count > 0)
        {
            var strips = Count(PlacedBlock.Total(longer), rules.UsableWidth, rules.SeamAllowance);
            yield return new(letter, rules.UsableWidth, cutHeight, strips, $"{use}, joined end to end", IsStrip: true);
        }
    }
}
