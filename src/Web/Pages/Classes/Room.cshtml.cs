using KittingBee.Web.Classes;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>How many more kits fit, and what the next student costs. A page of its own, so that nothing else waits for the search.</summary>
public sealed class RoomModel(ClassDesk desk, RoomBook book) : ClassPage(desk)
{
    public override string Stage => "Cut";

    /// <summary>True for the sentences alone, to be put into another page.</summary>
    [BindProperty(SupportsGet = true)]
    public bool Part { get; set; }

    public IReadOnlyList<WayRoom> Rooms { get; private set; } = [];

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        Rooms = RoomBook.CanTell(Plan) ? book.Of(Materials, Plan) : [];
        return Page();
    }
}
