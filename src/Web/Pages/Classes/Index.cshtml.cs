using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Classes;

/// <summary>The guild's classes, open ones first.</summary>
public sealed class IndexModel(ClassStore classes) : PageModel
{
    public IReadOnlyList<ClassRecord> Classes { get; private set; } = [];

    public void OnGet() => Classes = classes.All();

    public async Task<IActionResult> OnPostPutBack(long id)
    {
        if (!await classes.PutBack(id))
        {
            return NotFound();
        }

        Notice.Say(TempData, "The class is back.");
        return RedirectToPage();
    }
}
