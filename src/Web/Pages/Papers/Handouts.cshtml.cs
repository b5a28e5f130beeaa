using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Handouts;
using KittingBee.Web.Running;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Papers;

/// <summary>A handout for each student, each on pages of its own.</summary>
public sealed class HandoutsModel(ClassPlanning planning, ShareAddress share) : PaperPage(planning, share)
{
    /// <summary>Only the kit of this number; null for all students.</summary>
    [BindProperty(SupportsGet = true)]
    public int? Kit { get; set; }

    /// <summary>The large-print edition for everybody; otherwise for those who asked for it.</summary>
    [BindProperty(SupportsGet = true)]
    public bool Large { get; set; }

    public IReadOnlyList<Handout> Handouts { get; private set; } = [];

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        var kits = Kit is { } number ? Plan.Kits.Where(kit => kit.Number == number) : HandoutMaker.KitsOf(Plan);
        var maker = new HandoutMaker(Plan, BagAddress);
        Handouts = [.. kits.Select(maker.Of)];
        return Kit is not null && Handouts.Count == 0 ? NotFound() : Page();
    }
}
