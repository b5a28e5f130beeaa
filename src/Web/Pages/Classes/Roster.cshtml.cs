using KittingBee.Planning;
using KittingBee.Web.Backups;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>Who is coming.</summary>
public sealed class RosterModel(ClassDesk desk, RosterStore roster, ClosingStore closing, KittingBee.Web.Packing.MarkDesk marks, BackupBook backups) : ClassPage(desk)
{
    [BindProperty]
    public StudentForm Form { get; set; } = new();

    [BindProperty]
    public string? Lines { get; set; }

    [BindProperty]
    public bool DuplicatesMeant { get; set; }

    public IReadOnlyList<Problem> LineProblems { get; private set; } = [];

    public override string Stage => "Roster";

    /// <summary>Names that stand on the roster more than once.</summary>
    public IReadOnlyList<string> SameNames => [.. Materials.Students.GroupBy(student => student.Name, StringComparer.OrdinalIgnoreCase).Where(same => same.Count() > 1).Select(same => same.Key).Take(20)];

    public int? KitOf(Student student) => Materials.Kits.FirstOrDefault(kit => kit.StudentId == student.Id)?.Number;

    /// <summary>The note, and the handout that the student gets.</summary>
    public string NoteOf(Student student) => string.Join(", ", new[]
    {
        student.Note, student.LargePrint ? Say("large print") : "", student.LeftHanded ? Say("left-handed") : "",
    }.Where(part => part.Length > 0));

    public async Task<IActionResult> OnGet(long classId) => await Open(classId) ? Page() : NotFound();

    public async Task<IActionResult> OnPostAdd(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        var reader = new FormReader(ModelState, nameof(Form), Record.Metric);
        var student = Form.Read(reader, classId, Materials.Colourways);
        if (Materials.Students.Count >= RosterLines.Most)
        {
            reader.Wrong(nameof(Form.Name), $"A class takes {RosterLines.Most:#,##0} students, and this one is full.");
        }

        if (!ClassIsOpen() || !reader.IsGood)
        {
            return Page();
        }

        await roster.Add(classId, [student]);
        Notice.Say(TempData, $"{student.Name} is on the roster.");
        return RedirectToPage(new { classId });
    }

    public async Task<IActionResult> OnPostPaste(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        var reading = RosterLines.Read(Lines, Materials.Colourways, Materials.Students, DuplicatesMeant);
        LineProblems = reading.Problems;
        if (reading.Problems.Count > 0)
        {
            ModelState.AddModelError(nameof(Lines), Say("Nothing is added yet: mend what is said below, and send the list again."));
        }

        if (!ClassIsOpen() || !ModelState.IsValid)
        {
            return Page();
        }

        await roster.Add(classId, reading.Students);
        Notice.Say(TempData, $"{Many(reading.Students.Count, "student")} added to the roster.");
        return RedirectToPage(new { classId });
    }

    public async Task<IActionResult> OnPostForget(long classId)
    {
        if (!await Open(classId) || !Record.IsClosed)
        {
            return NotFound();
        }

        backups.Make(BackupReason.BeforeForgetting);
        await closing.Forget(classId);
        marks.Forget(classId);
        Notice.Say(TempData, "Names, contacts and notes of this class are forgotten.");
        return RedirectToPage(new { classId });
    }

    public async Task<IActionResult> OnPostPutBack(long classId, long id)
    {
        if (!await roster.PutBack(classId, id))
        {
            return NotFound();
        }

        Notice.Say(TempData, "The student is back on the roster, with the same kit.");
        return RedirectToPage(new { classId });
    }
}
