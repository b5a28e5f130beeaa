using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Handouts;
using KittingBee.Web.Running;
using KittingBee.Web.Sharing;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Papers;

/// <summary>A handout for each student, each on pages of its own.</summary>
public sealed class HandoutsModel(ClassPlanning planning, KitLinks links, ShareAddress share) : PaperPage(planning, share)
{
    private IReadOnlyDictionary<long, string> linkOf = new Dictionary<long, string>();

    /// <summary>Only the kit of this number; null for all students.</summary>
    [BindProperty(SupportsGet = true)]
    public int? Kit { get; set; }

    /// <summary>The large-print edition for everybody; otherwise for those who asked for it.</summary>
    [BindProperty(SupportsGet = true)]
    public bool Large { get; set; }

    /// <summary>More handouts than this take long enough to come that the page shows how far they are.</summary>
    public const int Many = 30;

    /// <summary>Kits whose handouts are shown.</summary>
    public IReadOnlyList<PlannedKit> Kits { get; private set; } = [];

    public IEnumerable<Handout> Handouts => HandoutsOf(Kits, linkOf);

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        linkOf = await links.Of(classId);
        Kits = [.. Kit is { } number ? Plan.Kits.Where(kit => kit.Number == number) : HandoutMaker.KitsOf(Plan)];
        return Kit is not null && Kits.Count == 0 ? NotFound() : Page();
    }
}
