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

        Tickets = [.. Plan.Fabrics.Where(fabric => fabric.HasTicket).Select(Ticket.Of)];
        Shopping = Plan.Shopping();
        return Page();
    }
}
