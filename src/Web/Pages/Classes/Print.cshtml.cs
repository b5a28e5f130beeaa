using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Handouts;
using KittingBee.Web.Running;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>Everything that goes on paper.</summary>
public sealed class PrintModel(ClassDesk desk, ClassStore classes, ClassPlanning planning, ShareAddress share) : ClassPage(desk)
{
    public override string Stage => "Print";

    public int Handouts => HandoutMaker.KitsOf(Plan).Count();

    public int LargePrint => HandoutMaker.KitsOf(Plan).Count(kit => kit.LargePrint);

    public int Tickets => Plan.Fabrics.Count(fabric => fabric.HasTicket);

    /// <summary>True where phones can follow the codes on the paper.</summary>
    public bool CodesLeadHere => share.LeadsHere(Request);

    public async Task<IActionResult> OnGet(long classId) => await Open(classId) ? Page() : NotFound();

    public async Task<IActionResult> OnPostPrinted(long classId)
    {
        await planning.SetAside(classId);
        if (!await classes.MarkPrinted(classId))
        {
            return NotFound();
        }

        Notice.Say(TempData, "Noted: everything is printed.");
        return RedirectToPage();
    }
}
