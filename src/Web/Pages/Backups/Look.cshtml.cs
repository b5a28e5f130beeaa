using KittingBee.Web.Backups;
using KittingBee.Web.Running;
using KittingBee.Web.Showing;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Backups;

/// <summary>One copy: what is in it, what putting it back would change, and the file itself.</summary>
public sealed class LookModel(BackupBook backups, Restoring restoring, DataFolder folder) : PageModel
{
    public BackupFile Chosen { get; private set; } = null!;

    public BackupContents Now { get; private set; } = null!;

    public BackupContents Then { get; private set; } = null!;


    public IActionResult OnGet(string name) => Open(name) ? Page() : NotFound();

    public IActionResult OnGetFile(string name) => backups.Find(name) is { } copy
        ? PhysicalFile(backups.PathOf(copy), "application/vnd.sqlite3", $"kitting-bee-{copy.Name}")
        : NotFound();

    public async Task<IActionResult> OnPostRestore(string name)
    {
        if (!Open(name))
        {
            return NotFound();
        }

        try
        {
            if (Then.Problem is { } problem)
            {
                throw new BackupException(problem);
            }

            var before = await restoring.Restore(Chosen);
            Notice.Say(TempData, $"Everything is as it was on {BackupText.When(Chosen.MadeAt)}.", PageAddresses.PutBack(before.Name));
            return RedirectToPage("/Backups/Index");
        }
        catch (BackupException e)
        {
            ModelState.AddModelError("", e.Message);
            Response.StatusCode = StatusCodes.Status409Conflict;
            return Page();
        }
    }

    private bool Open(string name)
    {
        if (backups.Find(name) is not { } copy)
        {
            return false;
        }

        Chosen = copy;
        Then = BackupContents.Read(backups.PathOf(copy), whole: true);
        Now = BackupContents.Read(folder.DatabaseFile, whole: false);
        return true;
    }
}
