using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>Starts a new class like one that there is.</summary>
public sealed class CopyModel(ClassDesk desk, ClassStore classes) : ClassPage(desk)
{
    private const int LongestTitle = 120;

    public override string Stage => "Roster";

    [BindProperty]
    public string? Title { get; set; }

    [BindProperty]
    public bool WithRoster { get; set; }

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        Title = Record.Title;
        return Page();
    }

    public async Task<IActionResult> OnPost(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        var title = (Title ?? "").Trim();
        if (title.Length is 0 or > LongestTitle)
        {
            ModelState.AddModelError(nameof(Title), title.Length == 0 ? Say("The title is missing: type it here.") : Say($"The title is {title.Length} characters long; {LongestTitle} is the most."));
            return Page();
        }

        var copy = await classes.Copy(classId, title, WithRoster);
        Notice.Say(TempData, $"“{title}” is a new class. Give it its date.");
        return Redirect(PageAddresses.Class(copy, "change"));
    }
}
