using KittingBee.Web.Classes;
using KittingBee.Web.Packing;
using KittingBee.Web.Sharing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Sharing;

/// <summary>A student's own page: what is in the bag, and how far it is. The link is all that opens it.</summary>
public sealed class OwnModel(KitLinks links, ClassPlanning planning, MarkDesk marks, ShortageStore shortages) : PageModel
{
    public ClassPlan Plan { get; private set; } = null!;

    public Bag Bag { get; private set; } = null!;

    public string Link { get; private set; } = "";

    public async Task<IActionResult> OnGet(string link)
    {
        Response.Headers["Referrer-Policy"] = "no-referrer";
        if (links.Open(link) is not { } kit || await planning.Plan(kit.ClassId) is not { } plan)
        {
            return NotFound();
        }

        Plan = plan;
        Link = link;
        var bags = Bags.Of(plan, marks.Table(kit.ClassId), shortages.ForClass(kit.ClassId));
        if (bags.All.FirstOrDefault(bag => bag.Kit.KitId == kit.KitId) is not { } own)
        {
            return NotFound();
        }

        Bag = own;
        return Page();
    }
}
