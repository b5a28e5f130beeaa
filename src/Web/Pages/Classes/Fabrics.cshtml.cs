using KittingBee.Web.Classes;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>The class's colourways, and who has which.</summary>
public sealed class FabricsModel(ClassDesk desk, RosterStore roster, ColourwayStore colourways, KitStore kits, RoomBook book) : ClassPage(desk)
{
    public override string Stage => "Fabrics";

    public int WithoutColourway => Materials.Students.Count(student => !student.Waiting && student.ColourwayId is null);

    /// <summary>Spares, samples and kits to claim: their colourway is chosen here.</summary>
    public IReadOnlyList<PlannedKit> OwnKits => [.. Plan.Kits.Where(kit => kit.Role != KitRole.Student).Take(200)];

    public bool CanTellRoom => !Record.IsClosed && RoomBook.CanTell(Plan);

    /// <summary>How many more of each colourway the cloth gives, where that is known already.</summary>
    public IReadOnlyList<WayRoom>? Room => book.Known(Materials, Plan);

    public async Task<IActionResult> OnGet(long classId) => await Open(classId) ? Page() : NotFound();

    public async Task<IActionResult> OnPostSpread(long classId, bool everybody)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        if (!ClassIsOpen())
        {
            return Page();
        }

        var chosen = EvenSpread.Of(Materials.Students, Materials.Colourways, everybody);
        await roster.ChooseColourways(classId, chosen);
        Notice.Say(TempData, $"{Many(chosen.Count, "student")} spread over {Many(Materials.Colourways.Count, "colourway")}.");
        return RedirectToPage(new { classId });
    }

    public async Task<IActionResult> OnPostKit(long classId, long id, long colourwayId)
    {
        if (!await Open(classId) || Materials.Colourways.All(way => way.Id != colourwayId))
        {
            return NotFound();
        }

        if (!ClassIsOpen())
        {
            return Page();
        }

        return await kits.ChooseColourway(classId, id, colourwayId) ? RedirectToPage(new { classId }) : NotFound();
    }

    public async Task<IActionResult> OnPostPutBack(long classId, long id)
    {
        if (!await colourways.PutBack(classId, id))
        {
            return NotFound();
        }

        Notice.Say(TempData, "The colourway is back, and so are its students.");
        return RedirectToPage(new { classId });
    }
}
