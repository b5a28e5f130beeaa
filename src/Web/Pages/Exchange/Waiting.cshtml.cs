using KittingBee.Web.Backups;
using KittingBee.Web.Exchange;
using KittingBee.Web.Running;
using KittingBee.Web.Showing;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Exchange;

/// <summary>A file that was read: what taking it in would change.</summary>
public sealed class WaitingModel(Incoming incoming, DataFolder folder) : PageModel
{
    public WaitingFile Waiting { get; private set; } = null!;

    public BackupContents Now { get; private set; } = null!;

    public bool IsGuild => Waiting.Head.Kind == FileFormat.Guild;

    public async Task<IActionResult> OnGet(string id) => await Open(id) ? Page() : Gone();

    public async Task<IActionResult> OnPost(string id, bool withCloth)
    {
        if (!await Open(id))
        {
            return Gone();
        }

        try
        {
            var (before, classId) = await incoming.Take(Waiting, withCloth);
            Notice.Show(TempData, IsGuild ? Say("The guild is the one of the file now.") : Say($"{Waiting.Contents.Classes[0].Title} is taken in."), PageAddresses.PutBack(before.Name));
            return Redirect(IsGuild ? "/" : PageAddresses.Class(classId));
        }
        catch (BackupException e)
        {
            ModelState.AddModelError("", e.Message);
            Response.StatusCode = StatusCodes.Status409Conflict;
            return Page();
        }
    }

    public IActionResult OnPostLeave(string id)
    {
        incoming.Forget(id);
        return Redirect("/settings/files");
    }

    private async Task<bool> Open(string id)
    {
        if (await incoming.Find(id) is not { } waiting)
        {
            return false;
        }

        Waiting = waiting;
        Now = BackupContents.Read(folder.DatabaseFile, whole: false);
        return true;
    }

    private RedirectResult Gone()
    {
        Notice.Say(TempData, "That file does not wait any more. Choose it again.");
        return Redirect("/settings/files");
    }
}
