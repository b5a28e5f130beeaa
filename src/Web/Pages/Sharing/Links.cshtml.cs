using KittingBee.Web.Pages.Classes;
using KittingBee.Web.Sharing;
using KittingBee.Web.Showing;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Sharing;

/// <summary>The links of a class's kits, to withdraw or renew.</summary>
public sealed class LinksModel(ClassDesk desk, KitLinks links, SecurityLog log) : ClassPage(desk)
{
    public override string Stage => "Print";

    public IReadOnlyDictionary<long, string> LinkOf { get; private set; } = new Dictionary<long, string>();

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        LinkOf = await links.Of(classId);
        return Page();
    }

    public async Task<IActionResult> OnPostWithdraw(long classId, long kit) =>
        await Done(classId, await links.Withdraw(classId, kit), Say("The link is withdrawn: it opens nothing any more."), Say($"The link of kit {kit} in class {classId} was withdrawn"));

    public async Task<IActionResult> OnPostRenew(long classId, long kit) =>
        await Done(classId, await links.Renew(classId, kit), Say("There is a new link. Print the handout again; the old code opens nothing any more."), Say($"The link of kit {kit} in class {classId} was renewed"));

    private async Task<IActionResult> Done(long classId, bool done, string says, string noted)
    {
        if (!done)
        {
            return NotFound();
        }

        await log.Note(noted, HttpContext);
        Notice.Show(TempData, says);
        return Redirect(PageAddresses.Class(classId, "print/links"));
    }
}
