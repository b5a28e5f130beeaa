using KittingBee.Web.Classes;
using KittingBee.Web.Documents;
using KittingBee.Web.Running;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Papers;

/// <summary>A cutting ticket for each fabric, each beginning on a page of its own.</summary>
public sealed class TicketsModel(ClassPlanning planning, RoomBook book, ShareAddress share) : PaperPage(planning, share)
{
    private const int MostBoxes = 60;

    /// <summary>Only the fabric of this number; null for all.</summary>
    [BindProperty(SupportsGet = true)]
    public long? Fabric { get; set; }

    public IReadOnlyList<Ticket> Tickets { get; private set; } = [];

    /// <summary>How many more kits the cloth makes; with the tickets of all fabrics only.</summary>
    public IReadOnlyList<WayRoom> Rooms { get; private set; } = [];

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        Tickets = [.. Plan.Fabrics.Where(fabric => fabric.HasTicket && (Fabric is null || fabric.FabricId == Fabric)).Select(Ticket.Of)];
        Rooms = Fabric is null && RoomBook.CanTell(Plan) ? book.Of(Materials, Plan) : [];
        return Fabric is not null && Tickets.Count == 0 ? NotFound() : Page();
    }

    public static string Boxes(long count) => count <= MostBoxes ? new string('☐', (int)count) : Say($"{count} ×, keep a tally");
}
