using KittingBee.Web.Rosters;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Classes;

/// <summary>The roster as a file to save.</summary>
public sealed class RosterFileModel(ClassStore classes, RosterStore roster, ColourwayStore colourways) : PageModel
{
    public IActionResult OnGet(long classId) => classes.Find(classId) is { } record
        ? File(RosterExport.Write(roster.ForClass(classId), colourways.ForClass(classId)), "text/csv; charset=utf-8", FileNames.For(Say($"{record.Title} roster"), "csv"))
        : NotFound();
}
