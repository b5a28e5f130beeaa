using System.Text.RegularExpressions;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Shelf;

/// <summary>Adds or changes a fabric.</summary>
public sealed partial class FabricModel(GuildStore guild, FabricStore fabrics) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public long? Id { get; set; }

    /// <summary>The colourway page that asked for a new fabric, to go back to; it is told which one came.</summary>
    [BindProperty(SupportsGet = true, Name = "back")]
    public string? Back { get; set; }

    [BindProperty]
    public FabricForm Form { get; set; } = new();

    public bool IsNew => Id is null;

    private ClassHabits Habits => Showing.Habits.Of(guild.Read());

    public IActionResult OnGet()
    {
        if (Id is not { } id)
        {
            Form = FabricForm.New(Habits);
            return Page();
        }

        if (fabrics.Find(id) is not { DeletedAt: null } fabric)
        {
            return NotFound();
        }

        Form = FabricForm.From(fabric, Habits);
        return Page();
    }

    public async Task<IActionResult> OnPost()
    {
        var reader = new FormReader(ModelState, nameof(Form), Habits.Metric);
        var fabric = Form.Read(reader) with { Id = Id ?? 0 };
        if (!reader.IsGood)
        {
            return Page();
        }

        if (Id is null)
        {
            var added = await fabrics.Add(fabric);
            Notice.Say(TempData, $"{fabric.Name} is on the shelf.");
            return Redirect(Back is not null && Colourway().IsMatch(Back) ? $"{Back}{(Back.Contains('?', StringComparison.Ordinal) ? '&' : '?')}take={added}" : "/shelf");
        }

        switch (await fabrics.Save(fabric))
        {
            case Saved.Gone:
                return NotFound();
            case Saved.Stale:
                var now = fabrics.Find(fabric.Id)!;
                this.SayStale(FabricForm.From(now, Habits), Form, () => Form.Version = now.Version);
                return Page();
            default:
                Notice.Say(TempData, $"{fabric.Name} is saved.");
                return Redirect("/shelf");
        }
    }

    public async Task<IActionResult> OnPostRemove()
    {
        if (Id is not { } id || fabrics.Find(id) is not { } fabric || !await fabrics.Remove(id))
        {
            return NotFound();
        }

        Notice.Say(TempData, $"{fabric.Name} is off the shelf. Classes that use it keep it.", $"/shelf?handler=PutBackFabric&id={id}");
        return Redirect("/shelf");
    }

    [GeneratedRegex("^/classes/[0-9]{1,18}/fabrics/(new|[0-9]{1,18})([?&]take=[0-9]{1,18}){0,26}$")]
    private static partial Regex Colourway();
}
