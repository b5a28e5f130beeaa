using KittingBee.Web.Backups;
using KittingBee.Web.Showing;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Backups;

/// <summary>The copies of the database that are kept.</summary>
public sealed class IndexModel(BackupBook backups) : PageModel
{
    public IReadOnlyList<(BackupFile File, BackupContents Contents)> Copies { get; private set; } = [];

    public string Folder => backups.Folder;

    public string? Problem => backups.LastProblem;

    public void OnGet() => Copies = [.. backups.All().Select(copy => (copy, BackupContents.Read(backups.PathOf(copy), whole: false)))];

    public IActionResult OnPostMake()
    {
        try
        {
            backups.Make(BackupReason.ByHand);
            Notice.Say(TempData, "A copy is made and checked.");
            return RedirectToPage();
        }
        catch (BackupException e)
        {
            OnGet();
            ModelState.AddModelError("", e.Message);
            Response.StatusCode = StatusCodes.Status507InsufficientStorage;
            return Page();
        }
    }

    public IActionResult OnPostDelete(string? name)
    {
        if (backups.Find(name) is not { } copy)
        {
            return NotFound();
        }

        backups.Delete(copy);
        Notice.Say(TempData, $"The copy of {BackupText.When(copy.MadeAt)} is deleted.");
        return RedirectToPage();
    }
}
