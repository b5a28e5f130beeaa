using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>A class at a glance.</summary>
public sealed class OverviewModel(ClassDesk desk) : ClassPage(desk)
{
    public override string Stage => "";

    public async Task<IActionResult> OnGet(long classId) => await Open(classId) ? Page() : NotFound();
}
