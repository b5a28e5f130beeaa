using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Workbook;
using KittingBee.Web.Showing;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Papers;

/// <summary>The class as a workbook to download.</summary>
public sealed class WorkbookModel(ClassPlanning planning) : PageModel
{
    public async Task<IActionResult> OnGet(long classId) => planning.Materials(classId) is { } materials
        ? File(KitWorkbook.Build(await planning.Plan(materials), materials.Record), KitWorkbook.MediaType, FileNames.For(materials.Record.Title, "xlsx"))
        : NotFound();
}
