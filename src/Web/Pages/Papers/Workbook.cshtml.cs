using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Workbook;
using KittingBee.Web.Showing;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Papers;

/// <summary>The class as a workbook to download.</summary>
public sealed class WorkbookModel(ClassPlanning planning) : PageModel
{
    public async Task<IActionResult> OnGet(long classId) => await planning.Plan(classId) is { } plan
        ? File(KitWorkbook.Build(plan), KitWorkbook.MediaType, FileNames.For(plan.Title, "xlsx"))
        : NotFound();
}
