using KittingBee.Web.Packing;
using KittingBee.Web.Sharing;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Sharing;

/// <summary>The door: a helper's join code, or the teacher's password.</summary>
[RequestSizeLimit(SharingDesk.LargestForm)]
public sealed class SignInModel(SharingState state, SharingDesk desk, ShareStore store, TeacherPassword password, SecurityLog log) : PageModel
{
    /// <summary>The page that was asked for.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Next { get; set; }

    [BindProperty]
    public string? Code { get; set; }

    [BindProperty]
    public string? Name { get; set; }

    [BindProperty]
    public string? Password { get; set; }

    public IActionResult OnGet()
    {
        Name = Helper.NameOf(Request);
        return state.IsShared ? Page() : Redirect("/");
    }

    public async Task<IActionResult> OnPostHelper()
    {
        if (!state.IsShared)
        {
            return Redirect("/");
        }

        if (Helper.Clean(Name).Length == 0)
        {
            return Refuse(nameof(Name), SharingDesk.NoName);
        }

        if (await desk.TooEarly(HttpContext) is { } wait)
        {
            return Refuse(nameof(Code), wait);
        }

        var code = Secrets.CodeFrom(Code);
        if (store.Joins().FirstOrDefault(join => join.Code == code) is not { } join)
        {
            await log.Note(Say("A join code was wrong or over"), HttpContext);
            return Refuse(nameof(Code), Say("This code opens no class. Check it against the teacher’s page; codes are over after some hours."));
        }

        desk.Passed(HttpContext);
        Helper.Remember(Response, Name!);
        if (!await desk.SignInHelper(join, Helper.Clean(Name), HttpContext))
        {
            return Refuse(nameof(Code), SharingDesk.IsFull);
        }

        return Redirect(Onward(FormattableString.Invariant($"/classes/{join.ClassId}/pack")));
    }

    public async Task<IActionResult> OnPostTeacher()
    {
        if (!state.IsShared)
        {
            return Redirect("/");
        }

        if (await desk.TooEarly(HttpContext) is { } wait)
        {
            return Refuse(nameof(Password), wait);
        }

        if (!await password.IsRight(Password))
        {
            await log.Note(Say("A password was wrong"), HttpContext);
            return Refuse(nameof(Password), Say("That is not the teacher’s password. If it is forgotten, a new one can be set at the guild’s computer itself: see “Sharing” in its README."));
        }

        desk.Passed(HttpContext);
        await desk.SignInTeacher(HttpContext);
        return Redirect(Onward("/"));
    }

    private PageResult Refuse(string field, string why)
    {
        if (Response.StatusCode == StatusCodes.Status200OK)
        {
            Response.StatusCode = StatusCodes.Status400BadRequest;
        }

        ModelState.AddModelError(field, why);
        return Page();
    }

    private string Onward(string otherwise) => Next is { Length: > 1 } next && Url.IsLocalUrl(next) && !next.StartsWith("/sign-in", StringComparison.OrdinalIgnoreCase) ? next : otherwise;
}
