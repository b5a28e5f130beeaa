using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Equal pieces that a group of alike units needs of one fabric.</summary>
internal sealed record MadePiece(string Letter, Length Width, Length Height, int Count, Sentence Use, bool IsStrip = false);

/// <summary>How a group of alike units is made.</summary>
/// <param name="Pieces">What is cut for it.</param>
/// <param name="LeftOver">Units that come out beyond the need.</param>
/// <param name="Note">Why another method is used, or null.</param>
/// <param name="Text">The sewing step, or null where nothing is sewn.</param>
internal sealed record Making(IReadOnlyList<MadePiece> Pieces, int LeftOver, Sentence? Note, Sentence? Text)
{
    /// <summary>Makes a number of alike units. The form must be canonical, so that geese point up and rails lie across.</summary>
    public static Making Of(UnitForm form, int count, CuttingRules rules) => form.Kind switch
    {
        UnitKind.Plain => PatchMaking.Plain(form, count, rules),
        UnitKind.HalfSquareTriangle => TriangleMaking.HalfSquares(form, count, rules),
        UnitKind.QuarterSquareTriangle => TriangleMaking.QuarterSquares(form, count, rules),
        UnitKind.FlyingGeese => GeeseMaking.Geese(form, count, rules),
        UnitKind.FlippedCorners => CornerMaking.FlippedCorners(form, count, rules),
        UnitKind.SquareInASquare => CornerMaking.SquareInASquare(form, count, rules),
        UnitKind.Rails => PatchMaking.Rails(form, count, rules),
        UnitKind.Checkerboard => PatchMaking.Checkerboard(form, count, rules),
        UnitKind.Template => PatchMaking.Template(form, count),
        UnitKind.PiecedTriangle => PiecedTriangleMaking.Of(form, count, rules),
        _ => throw new ArgumentOutOfRangeException(nameof(form), form.Kind, "A nested block is made from its own units."),
    };

    /// <summary>Whole squares for a number of parts, each square giving so many.</summary>
    public static int Squares(int parts, int perSquare) => (parts + perSquare - 1) / perSquare;

    /// <summary>"A and B", "A, B and C".</summary>
    public static Sentence List(IEnumerable<string> words) => List(words.Select(word => (Sentence)$"{word}"));

    /// <summary>The same of parts that are said in the reader's language.</summary>
    public static Sentence List(IEnumerable<Sentence> parts)
    {
        var all = parts.ToList();
        return all.Count < 2 ? Sentence.Join("", all) : $"{Sentence.Join(", ", all.SkipLast(1))} and {all[^1]}";
    }
}
