using KittingBee.Web.Classes;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Classes;

/// <summary>The guild's classes, open ones first.</summary>
public sealed class IndexModel(ClassStore classes, ClassList list, ClassPlanning planning) : PageModel
{
    public IReadOnlyList<ListedClass> Classes { get; private set; } = [];

    public async Task OnGet() => Classes = await list.All();

    public async Task<IActionResult> OnPostPutBack(long id)
    {
        if (!await classes.PutBack(id))
        {
            return NotFound();
        }

        Notice.Show(TempData, Say("The class is back.") + ClassText.PlannedAnew(await planning.HoldAgain(id)));
        return RedirectToPage();
    }
}
