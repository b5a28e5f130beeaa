using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Handouts;
using KittingBee.Web.Pages.Papers;
using KittingBee.Web.Running;
using KittingBee.Web.Sharing;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Sharing;

/// <summary>One student's handout, opened by the student's own link.</summary>
public sealed class OwnHandoutModel(KitLinks links, ClassPlanning planning, ShareAddress share) : PaperPage(planning, share)
{
    /// <summary>The large-print edition.</summary>
    [BindProperty(SupportsGet = true)]
    public bool Large { get; set; }

    public Handout Handout { get; private set; } = null!;

    public string Link { get; private set; } = "";

    public override string Back => $"/own/{Link}";

    public async Task<IActionResult> OnGet(string link)
    {
        Response.Headers["Referrer-Policy"] = "no-referrer";
        if (links.Open(link) is not { } own || !await Open(own.ClassId) || Plan.Kits.FirstOrDefault(kit => kit.KitId == own.KitId) is not { } kit)
        {
            return NotFound();
        }

        Link = link;
        Handout = new HandoutMaker(Plan, _ => OwnAddress(link)).Of(kit);
        return Page();
    }
}
