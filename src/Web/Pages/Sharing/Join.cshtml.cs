using KittingBee.Web.Packing;
using KittingBee.Web.Sharing;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Sharing;

/// <summary>A class's join code, scanned: the helper only says a name.</summary>
[RequestSizeLimit(SharingDesk.LargestForm)]
public sealed class JoinModel(SharingState state, SharingDesk desk, ShareStore store, SecurityLog log) : PageModel
{
    public JoinCode? Join { get; private set; }

    [BindProperty]
    public string? Name { get; set; }

    public async Task<IActionResult> OnGet(string link)
    {
        Name = Helper.NameOf(Request);
        return await Open(link) ? Page() : NoLonger();
    }

    public async Task<IActionResult> OnPost(string link)
    {
        if (!await Open(link))
        {
            return NoLonger();
        }

        if (Helper.Clean(Name).Length == 0)
        {
            return Refuse(SharingDesk.NoName);
        }

        Helper.Remember(Response, Name!);
        if (!await desk.SignInHelper(Join!, Helper.Clean(Name), HttpContext))
        {
            return Refuse(SharingDesk.IsFull);
        }

        return Redirect(FormattableString.Invariant($"/classes/{Join!.ClassId}/pack"));
    }

    private async Task<bool> Open(string link)
    {
        Join = state.IsShared ? store.Joins().FirstOrDefault(join => join.Link == link) : null;
        if (Join is null)
        {
            await log.Note(Say("A join link was wrong or over"), HttpContext);
        }

        return Join is not null;
    }

    private PageResult Refuse(string why)
    {
        ModelState.AddModelError(nameof(Name), why);
        Response.StatusCode = StatusCodes.Status400BadRequest;
        return Page();
    }

    private RedirectResult NoLonger()
    {
        Notice.Say(TempData, "That code is over. Ask the teacher for tonight’s code.");
        return Redirect("/sign-in");
    }
}
