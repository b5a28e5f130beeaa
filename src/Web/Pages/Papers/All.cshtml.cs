using KittingBee.Web.Classes;
using KittingBee.Web.Documents;
using KittingBee.Web.Documents.Handouts;
using KittingBee.Web.Documents.Labels;
using KittingBee.Web.Running;
using KittingBee.Web.Sharing;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Papers;

/// <summary>Everything that the class needs on paper, in one print: tickets, handouts, and labels on plain paper.</summary>
public sealed class AllModel(ClassPlanning planning, RoomBook book, KitLinks links, ShareAddress share) : PaperPage(planning, share)
{
    private IReadOnlyDictionary<long, string> linkOf = new Dictionary<long, string>();

    public IReadOnlyList<Ticket> Tickets { get; private set; } = [];

    /// <summary>How many more kits the cloth makes.</summary>
    public IReadOnlyList<WayRoom> Rooms { get; private set; } = [];

    /// <summary>Kits that a handout is made for.</summary>
    public IReadOnlyList<PlannedKit> Kits { get; private set; } = [];

    public IEnumerable<Handout> Handouts => HandoutsOf(Kits, linkOf);

    /// <summary>Labels to cut apart: plain paper is what all of a print comes on.</summary>
    public IReadOnlyList<string> Labels => LabelDrawing.Sheets(
        [.. Plan.Kits.Select(kit => LabelOf.Kit(Plan, kit, BagAddress(kit)))], LabelSheet.ToCut(A4), 1, outlines: true);

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        linkOf = await links.Of(classId);
        Tickets = [.. Plan.Fabrics.Where(fabric => fabric.HasTicket).Select(Ticket.Of)];
        Rooms = RoomBook.CanTell(Plan) && Tickets.Count > 0 ? book.Of(Materials, Plan) : [];
        Kits = [.. HandoutMaker.KitsOf(Plan)];
        return Page();
    }
}
