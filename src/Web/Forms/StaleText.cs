using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Forms;

/// <summary>What to say when somebody else saved in the meantime.</summary>
public static class StaleText
{
    /// <summary>
    /// Answers 409 with what is stored now; what was typed stays in the form, and sending it again replaces what is stored.
    /// </summary>
    /// <param name="page">The page whose form was sent.</param>
    /// <param name="now">How it is stored now, in words.</param>
    /// <param name="takeVersion">Puts the stored version into the form.</param>
    /// <param name="field">Name of the version's field.</param>
    public static void SayStale(this PageModel page, string now, Action takeVersion, string field = "Form.Version")
    {
        page.ModelState.AddModelError(
            "",
            $"Somebody saved this while you were editing, and nothing of yours is stored yet. Stored now: {now}. What you typed is still here: send it again to replace that, or leave the page to keep it.");
        page.ModelState.Remove(field);
        takeVersion();
        page.Response.StatusCode = StatusCodes.Status409Conflict;
    }
}
