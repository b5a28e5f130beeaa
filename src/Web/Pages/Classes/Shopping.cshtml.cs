using KittingBee.Web.Showing;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>What to take from the shelf and what to buy for one class; ticked on the phone in the shop.</summary>
public sealed class ShoppingModel(ClassDesk desk, ShoppingDesk shopping) : ClassPage(desk)
{
    public override string Stage => "Cut";

    [BindProperty]
    public BoughtForm Form { get; set; } = new();

    public ShoppingView? Sheet { get; private set; }

    public async Task<IActionResult> OnGet(long classId) => await OpenList(classId) ? Page() : NotFound();

    public async Task<IActionResult> OnPostTick(long classId, long fabricId, bool ticked) =>
        !await OpenList(classId) ? NotFound()
        : !ClassIsOpen() ? Page()
        : await shopping.Tick(Sheet!.List, fabricId, ticked) ? Redirect($"{Sheet.Address}#line-{fabricId}") : NotFound();

    public async Task<IActionResult> OnPostBought(long classId)
    {
        if (!await OpenList(classId))
        {
            return NotFound();
        }

        if (ClassIsOpen() && await shopping.Buy(Sheet!.List, Form, Record.Metric, ModelState) is { } done)
        {
            Notice.Show(TempData, done);
            return Redirect(Sheet.Address);
        }

        Response.StatusCode = StatusCodes.Status400BadRequest;
        return Page();
    }

    private async Task<bool> OpenList(long classId)
    {
        if (!await Open(classId))
        {
            return false;
        }

        Sheet = new(shopping.List([Plan]), PageAddresses.Class(classId, "shopping"), HttpMethods.IsPost(Request.Method) ? Form : null);
        return true;
    }
}
