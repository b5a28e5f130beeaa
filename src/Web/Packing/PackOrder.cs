using System.Globalization;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Packing;

/// <summary>What a button on the table says, and the marks that it makes: a line, a whole kit, or one fabric dealt into all bags.</summary>
/// <param name="What">A <see cref="KitState"/>, or <see cref="Undo"/>.</param>
/// <param name="Where">The kit's number in the database, or <see cref="Deal"/>.</param>
/// <param name="Line">A line's key, <see cref="AllLines"/> or <see cref="KitMark.WholeKit"/>; for an undo the mark's sequence; for a deal the fabric.</param>
public sealed record PackOrder(string What, string Where, string Line)
{
    public const string Undo = "undo";

    public const string Deal = "deal";

    public const string AllLines = "all";

    /// <summary>Reads a button's value; null for one that no page of ours has.</summary>
    public static PackOrder? Read(string? text) =>
        (text ?? "").Split(' ') is [var what, var where, var line]
        && what is Undo or KitState.Cut or KitState.Bagged or KitState.Checked or KitState.HandedOver
        && (where == Deal || Number(where) is not null)
            ? new PackOrder(what, where, line)
            : null;

    /// <summary>The marks to make, leaving out what stands already.</summary>
    public IReadOnlyList<NewMark> Marks(Bags bags, string who)
    {
        if (What == Undo)
        {
            return Number(Where) is { } kit && Number(Line) is { } sequence
                ? [new NewMark(Guid.NewGuid(), kit, "", "", who, UndoesSequence: sequence)]
                : [];
        }

        return
        [
            .. from bag in bags.All
               where Where == Deal || bag.Kit.KitId == Number(Where)
               from line in LinesOf(bag)
               select new NewMark(Guid.NewGuid(), bag.Kit.KitId, line, What, who),
        ];
    }

    private IEnumerable<string> LinesOf(Bag bag)
    {
        if (Line == KitMark.WholeKit)
        {
            return bag.Whole is { } whole && KitState.Rank(whole.State) >= KitState.Rank(What) ? [] : [Line];
        }

        return bag.Lines
            .Where(line => Where == Deal ? bag.FabricOf(line.Line.Letter) == Number(Line) : Line == AllLines || line.Line.Key == Line)
            .Where(line => line.Mark is null || KitState.Rank(line.State) < KitState.Rank(What))
            .Select(line => line.Line.Key);
    }

    private static long? Number(string text) =>
        long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;
}
