using KittingBee.Web.Forms;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>Changes one student.</summary>
public sealed class StudentModel(ClassDesk desk, RosterStore roster) : ClassPage(desk)
{
    [BindProperty]
    public StudentForm Form { get; set; } = new();

    public override string Stage => "Roster";

    public async Task<IActionResult> OnGet(long classId, long id)
    {
        if (!await Open(classId) || roster.Find(classId, id) is not { } student)
        {
            return NotFound();
        }

        Form = StudentForm.From(student);
        return Page();
    }

    public async Task<IActionResult> OnPost(long classId, long id)
    {
        if (!await Open(classId) || roster.Find(classId, id) is not { } stored)
        {
            return NotFound();
        }

        var reader = new FormReader(ModelState, nameof(Form), Record.Metric);
        var student = Form.Read(reader, classId, Materials.Colourways) with { Id = id };
        if (!ClassIsOpen() || !reader.IsGood)
        {
            return Page();
        }

        switch (await roster.Save(student))
        {
            case Saved.Gone:
                return NotFound();
            case Saved.Stale:
                this.SayStale(Named(StudentForm.From(stored)), Named(Form), () => Form.Version = stored.Version);
                return Page();
            default:
                Notice.Say(TempData, $"{student.Name} is saved.");
                return Redirect(PageAddresses.Class(classId, "roster"));
        }
    }

    public async Task<IActionResult> OnPostRemove(long classId, long id)
    {
        if (!await Open(classId) || roster.Find(classId, id) is not { } student)
        {
            return NotFound();
        }

        if (!ClassIsOpen())
        {
            Form = StudentForm.From(student);
            return Page();
        }

        await roster.Remove(classId, id);
        Notice.Say(TempData, $"{student.Name} is off the roster.", $"{PageAddresses.Class(classId, "roster")}?handler=PutBack&id={id}");
        return Redirect(PageAddresses.Class(classId, "roster"));
    }

    /// <summary>The form in words: a colourway by its name.</summary>
    private Dictionary<string, object?> Named(StudentForm form) => new()
    {
        ["name"] = form.Name, ["contact"] = form.Contact, ["note"] = form.Note,
        ["colourway"] = Materials.Colourways.FirstOrDefault(way => way.Id == form.ColourwayId)?.Name,
        ["large print"] = form.LargePrint, ["left-handed"] = form.LeftHanded, ["waiting list"] = form.Waiting,
    };
}
