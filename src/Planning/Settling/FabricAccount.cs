using KittingBee.Planning.Measures;
using KittingBee.Planning.Pricing;

namespace KittingBee.Planning.Settling;

/// <summary>What happened to one fabric of a class. Lengths are of the whole usable width, as bought.</summary>
/// <param name="Name">The fabric's name, for messages.</param>
/// <param name="UsableWidth">Width between the selvages that can be cut.</param>
/// <param name="PricePerYard">Value of a yard from the shelf, and of all where nothing was bought.</param>
/// <param name="Bought">Length bought.</param>
/// <param name="Paid">Money paid for it.</param>
/// <param name="FromShelf">Pieces taken from the shelf for the class.</param>
/// <param name="Planned">Length that the plan cuts up; see <see cref="Cloth.CutUpBy"/>.</param>
/// <param name="Recut">Length cut up for re-cuts.</param>
/// <param name="GivenOut">Length handed out uncut, beyond the plan.</param>
/// <param name="Left">What is left, as measured.</param>
public sealed record FabricMovements(
    string Name,
    Length UsableWidth,
    decimal PricePerYard,
    Length Bought,
    decimal Paid,
    IReadOnlyList<Cloth> FromShelf,
    Length Planned,
    Length Recut,
    Length GivenOut,
    IReadOnlyList<Cloth> Left);

/// <summary>How an account comes out.</summary>
public enum AccountState
{
    /// <summary>The difference is within the tolerance.</summary>
    Closed,

    /// <summary>Cloth is missing beyond the tolerance.</summary>
    Missing,

    /// <summary>More is left than there should be, beyond the tolerance: something was not cut, or offcuts were measured as left over.</summary>
    MoreThanExpected,
}

/// <summary>A fabric's account, or what is wrong with its figures.</summary>
public sealed record FabricAccountResult(FabricAccount? Account, IReadOnlyList<Problem> Problems);

/// <summary>
/// The account of one fabric. It always closes: <see cref="Had"/> = <see cref="Used"/> + <see cref="Left"/> +
/// <see cref="Difference"/>, in length to the tick and in money to the cent.
/// </summary>
/// <param name="Name">The fabric's name.</param>
/// <param name="Had">Bought and taken from the shelf.</param>
/// <param name="Used">Planned, re-cut and given out.</param>
/// <param name="Left">Measured; remnants as length of whole width of the same area.</param>
/// <param name="Difference">Above zero: missing. Below zero: more than expected.</param>
/// <param name="DifferenceShare">Difference ÷ had, to four places; 1 or −1 where there was none to begin with.</param>
/// <param name="HadMoney">Paid, and the shelf's at its price.</param>
/// <param name="UsedMoney">Used, at the average price of what there was.</param>
/// <param name="LeftMoney">Left, at the same price.</param>
/// <param name="DifferenceMoney">What closes the account.</param>
/// <param name="State">Whether the difference is beyond the tolerance.</param>
public sealed record FabricAccount(
    string Name,
    Length Had,
    Length Used,
    Length Left,
    Length Difference,
    decimal DifferenceShare,
    decimal HadMoney,
    decimal UsedMoney,
    decimal LeftMoney,
    decimal DifferenceMoney,
    AccountState State)
{
    /// <summary>Squares the account.</summary>
    /// <param name="movements">What happened to the fabric.</param>
    /// <param name="tolerance">Share of what there was, 0 to 1, within which a difference is no matter; the class sets it.</param>
    public static FabricAccountResult Of(FabricMovements movements, decimal tolerance)
    {
        var problems = Check(movements, tolerance).ToList();
        if (problems.Count > 0)
        {
            return new(null, problems);
        }

        var shelf = Sum(movements.FromShelf, movements.UsableWidth);
        var had = movements.Bought + shelf;
        var used = movements.Planned + movements.Recut + movements.GivenOut;
        var left = Sum(movements.Left, movements.UsableWidth);
        var difference = had - used - left;
        var share = had.IsPositive ? decimal.Round((decimal)difference.Ticks / had.Ticks, 4) : Math.Sign(difference.Ticks);

        var hadMoney = Cents.Nearest(movements.Paid + (shelf.Yards * movements.PricePerYard));
        var perYard = had.IsPositive ? hadMoney / had.Yards : movements.PricePerYard;
        var (usedMoney, leftMoney) = (Cents.Nearest(used.Yards * perYard), Cents.Nearest(left.Yards * perYard));

        var beyond = had.IsPositive ? Math.Abs((decimal)difference.Ticks) > tolerance * had.Ticks : difference != Length.Zero;
        var state = !beyond ? AccountState.Closed : difference.IsPositive ? AccountState.Missing : AccountState.MoreThanExpected;
        return new(
            new(movements.Name, had, used, left, difference, share, hadMoney, usedMoney, leftMoney, hadMoney - usedMoney - leftMoney, state),
            []);
    }

    private static Length Sum(IEnumerable<Cloth> pieces, Length usableWidth) =>
        pieces.Aggregate(Length.Zero, (sum, piece) => sum + piece.AcrossWholeWidth(usableWidth));

    private static IEnumerable<Problem> Check(FabricMovements movements, decimal tolerance)
    {
        if (!Usable(movements.UsableWidth) || movements.UsableWidth == Length.Zero)
        {
            yield return new("usableWidth", $"The usable width of “{movements.Name}” is {LengthText.Write(movements.UsableWidth)}. Give more than 0, as measured between the selvages.");
        }

        foreach (var (field, length, what) in new (string, Length, Sentence)[]
        {
            ("bought", movements.Bought, "bought"), ("planned", movements.Planned, "planned"),
            ("recut", movements.Recut, "re-cut"), ("givenOut", movements.GivenOut, "given out"),
        })
        {
            if (!Usable(length))
            {
                yield return new(field, $"The length of “{movements.Name}” {what} is {LengthText.Write(length)}. Give 0 to 10,000 yd.");
            }
        }

        foreach (var (field, pieces) in new[] { ("fromShelf", movements.FromShelf), ("left", movements.Left) })
        {
            for (var index = 0; index < pieces.Count; index++)
            {
                if (!pieces[index].Width.IsPositive || !pieces[index].Length.IsPositive || !Usable(pieces[index].Width) || !Usable(pieces[index].Length))
                {
                    yield return new($"{field}[{index}]", $"A piece of “{movements.Name}” measures {LengthText.Write(pieces[index].Width)} × {LengthText.Write(pieces[index].Length)}. Give both sizes, each more than 0.");
                }
            }
        }

        if (movements.Paid is < 0 or > MoneyLimits.Most || movements.PricePerYard is < 0 or > MoneyLimits.Most)
        {
            yield return new("paid", $"“{movements.Name}”: {movements.Paid} paid, {movements.PricePerYard} a yard. Give both from 0 to {MoneyLimits.Most:N0}.");
        }

        if (tolerance is < 0 or > 1)
        {
            yield return new("tolerance", $"A tolerance of {tolerance * 100:0.##} % cannot be. Give 0 to 100 %.");
        }
    }

    private static bool Usable(Length length) => length >= Length.Zero && length <= Length.FromYards(10_000);
}
