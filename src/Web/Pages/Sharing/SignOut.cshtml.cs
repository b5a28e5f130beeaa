using KittingBee.Web.Sharing;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Sharing;

/// <summary>Ends what this device may do.</summary>
[RequestSizeLimit(SharingDesk.LargestForm)]
public sealed class SignOutModel(SharingDesk desk) : PageModel
{
    public async Task<IActionResult> OnPost()
    {
        await desk.SignOut(HttpContext);
        return Redirect("/sign-in");
    }
}
