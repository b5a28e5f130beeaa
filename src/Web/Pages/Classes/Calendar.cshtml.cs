using System.Text;
using KittingBee.Web.Documents;
using KittingBee.Web.Showing;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>The class as a calendar file to save.</summary>
public sealed class CalendarModel(ClassDesk desk, TimeProvider clock) : ClassPage(desk)
{
    public override string Stage => "Roster";

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        return CalendarFile.Of(Record, Materials.Students.Count(student => !student.Waiting), clock.GetUtcNow()) is { } text
            ? File(Encoding.UTF8.GetBytes(text), "text/calendar; charset=utf-8", FileNames.For(Record.Title, "ics"))
            : Page();
    }
}
