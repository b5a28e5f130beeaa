using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>How each fabric is cut, and what is bought for it.</summary>
public sealed class CutModel(ClassDesk desk, RoomBook book) : ClassPage(desk)
{
    public override string Stage => "Cut";

    public IReadOnlyList<Ticket> Tickets { get; private set; } = [];

    public ShoppingList Shopping { get; private set; } = new([], 0m, []);

    /// <summary>Money saved against cutting each size from strips of its own.</summary>
    public decimal Saved => Tickets.Sum(ticket => ticket.Plan.OneSizePerStrip.Cost - ticket.Plan.Buy.Cost);

    /// <summary>How many more kits fit; null while it is not known.</summary>
    public IReadOnlyList<WayRoom>? Room => book.Known(Materials, Plan);

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        Tickets = [.. Plan.Fabrics.Where(fabric => fabric.Plan is not null).Select(Ticket.Of)];
        Shopping = Plan.Shopping();
        return Page();
    }

    /// <summary>How the plan compares, in one sentence; the floor is a proof, so it is said as one.</summary>
    public string Compared(Ticket ticket)
    {
        var plan = ticket.Plan;
        if (!plan.Length.IsPositive)
        {
            return "All of it comes from the shelf.";
        }

        // Where the floor asks for as many shop increments as the plan does, no plan can cost less, whatever it uses of them.
        var stock = ticket.Fabric.Request.Stock;
        return plan.Status == PlanStatus.ProvedBest || (plan.Sheets.Count == 0 && Buying.BoltLength(stock, plan.Floor) == plan.Buy.Length)
            ? $"The strips take {Habits.Show(plan.Length)}; no plan of this kind costs less."
            : !plan.Floor.IsPositive // Nothing is known: the shelf's cloth might do alone.
            ? $"The strips take {Habits.Show(plan.Length)} off the bolt."
            : $"The least that any strip plan can use is {Habits.Show(plan.Floor)}; this one uses {Habits.Show(plan.Length)}.";
    }

    /// <summary>What cutting each size from its own strips would take; null where that is the same.</summary>
    public string? AgainstOneSize(Ticket ticket)
    {
        var (plan, one) = (ticket.Plan, ticket.Plan.OneSizePerStrip);
        var money = one.Cost - plan.Buy.Cost;
        return one.Length == plan.Buy.Length && money == 0
            ? null
            : $"Cutting each size from strips of its own would take {Habits.ShowYardage(one.Length)}" + (money == 0 ? "." : $", {Showing.MoneyText.Write(money, Record.Currency)} more.");
    }
}
