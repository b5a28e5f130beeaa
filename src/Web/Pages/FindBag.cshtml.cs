using KittingBee.Web.Sharing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages;

/// <summary>Opens a bag by its code: scanned where the browser can, typed everywhere.</summary>
public sealed class FindBagModel(KitStore kits) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public string? Code { get; set; }

    public IActionResult OnGet()
    {
        // A code may be typed with gaps, or a whole address pasted.
        var typed = string.Concat((Code ?? "").Split('/')[^1].Where(char.IsAsciiLetterOrDigit));
        if (typed.Length == 0)
        {
            return Page();
        }

        // A helper is told the same of a bag of another class as of one that there is not.
        if (kits.FindByCode(typed) is { } kit && (User.IsTeacher() || User.HelpsClass() == kit.ClassId))
        {
            return Redirect($"/bag/{kit.Code}");
        }

        ModelState.AddModelError(nameof(Code), Say($"No bag has the code “{Code}”. It is the six letters and figures under the square on the label."));
        Response.StatusCode = StatusCodes.Status404NotFound;
        return Page();
    }
}
