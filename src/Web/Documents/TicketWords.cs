using KittingBee.Planning.Cutting;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Documents;

/// <summary>Tickets in words.</summary>
public static class TicketWords
{
    /// <summary>What a step gives: "28 of 5¼″ square, 4 of 2½″ × 4½″".</summary>
    public static string ShowOut(this ClassHabits habits, TicketStep step) =>
        string.Join(", ", step.Out.Select(piece => habits.ShowPieces(piece.Count, piece.Width, piece.Height)));

    /// <summary>How the strips are stacked: "fold, stack 4 layers", "one layer".</summary>
    public static string ShowLayers(TicketLine line) => (line.Layers, line.Piles) switch
    {
        (1, _) => Say("one layer at a time"),
        (var layers, 1) => Say($"{layers} layers, in one pile"),
        (var layers, var piles) => Say($"{layers} layers, in {piles} piles"),
    };

    /// <summary>One line for each sub-cut of a strip, longest first as the plan gives them.</summary>
    public static IReadOnlyList<string> ShowSubCuts(this ClassHabits habits, Strip strip) => [.. strip.Columns.Select(column =>
    {
        var stack = string.Join(" + ", column.Pieces.Select(piece => piece.Count == 1
            ? habits.ShowPiece(piece.Width, piece.Height)
            : habits.ShowPieces(piece.Count, piece.Width, piece.Height)));
        var whole = column.Pieces is [{ Count: 1 } only] && only.Width == column.Width && only.Height == strip.Height;
        var cuts = Say($"{Many(column.Repeat, "sub-cut")} {habits.Show(column.Width)} wide");
        return whole ? cuts : Say($"{cuts}, each into {stack}");
    })];

    /// <summary>How the plan compares with the least there is, in one sentence; the floor is a proof, so it is said as one.</summary>
    public static string ShowFloor(this ClassHabits habits, Ticket ticket)
    {
        var plan = ticket.Plan;
        if (!plan.Length.IsPositive)
        {
            return Say("All of it comes from the shelf.");
        }

        return plan.Status == PlanStatus.ProvedBest
            ? Say($"The strips take {habits.Show(plan.Length)}; no plan of this kind costs less.")
            : !plan.Floor.IsPositive // Nothing is known: the shelf's cloth might do alone.
            ? Say($"The strips take {habits.Show(plan.Length)} off the bolt.")
            : Say($"The least that any strip plan can use is {habits.Show(plan.Floor)}; this one uses {habits.Show(plan.Length)}.");
    }

    /// <summary>What cutting each size from its own strips would take, in one sentence; null where that is the same.</summary>
    public static string? ShowSaving(this ClassHabits habits, Ticket ticket)
    {
        var (plan, one) = (ticket.Plan, ticket.Plan.OneSizePerStrip);
        var money = one.Cost - plan.Buy.Cost;
        return one.Length == plan.Buy.Length && money == 0
            ? null
            : money == 0
            ? Say($"Cutting each size from strips of its own would take {habits.ShowYardage(one.Length)}.")
            : Say($"Cutting each size from strips of its own would take {habits.ShowYardage(one.Length)}, {Showing.MoneyText.Write(money, habits.Currency)} more.");
    }
}
