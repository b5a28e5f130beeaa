using KittingBee.Planning.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Blocks;

/// <summary>Sets a block down on a grid, or changes one.</summary>
[RequestFormLimits(ValueCountLimit = 8000)]
public sealed class ChangeModel(GuildStore guild, BlockStore blocks) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public long? Id { get; set; }

    [BindProperty]
    public GridForm Form { get; set; } = new();

    public bool IsNew => Id is null;

    /// <summary>The block as typed, when it is whole.</summary>
    public Block? Preview { get; private set; }

    private ClassHabits Habits => Showing.Habits.Of(guild.Read());

    public IActionResult OnGet()
    {
        if (Id is not { } id)
        {
            Form = GridForm.New(Habits);
            return Page();
        }

        if (blocks.Find(id) is not { Json: { } json } stored || BlockJson.Read(json).Block is not { } block)
        {
            return NotFound();
        }

        if (!GridForm.CanHold(block))
        {
            return Redirect($"/blocks/json?id={id}");
        }

        Form = GridForm.From(block, stored.Version, Habits);
        Preview = block;
        return Page();
    }

    /// <summary>Draws what was typed and stores nothing; also gives the grid the cells that new sizes call for.</summary>
    public IActionResult OnPostDraw()
    {
        Preview = Read();

        // The cells may have moved: show the form's own, with the messages that were given.
        foreach (var key in ModelState.Keys.Where(key => key.StartsWith("Form.Cells", StringComparison.Ordinal) || key == "Form.Across").ToList())
        {
            if (ModelState[key]!.Errors.Count == 0)
            {
                ModelState.Remove(key);
            }
        }

        return Page();
    }

    public async Task<IActionResult> OnPost()
    {
        if (Read() is not { } block)
        {
            return Page();
        }

        var stored = new StoredBlock { Id = Id ?? 0, Name = block.Name, Json = BlockJson.Write(block), Version = Form.Version };
        if (IsNew)
        {
            var id = await blocks.Add(stored);
            Notice.Say(TempData, $"{block.Name} is saved.");
            return Redirect(PageAddresses.Block(id));
        }

        switch (await blocks.Save(stored))
        {
            case Saved.Gone:
                return NotFound();
            case Saved.Stale:
                var now = blocks.Find(stored.Id)!;
                this.SayStale($"{now.Name}, saved {now.UpdatedAt}", () => Form.Version = now.Version);
                return Page();
            default:
                Notice.Say(TempData, $"{block.Name} is saved.");
                return Redirect(PageAddresses.Block(stored.Id));
        }
    }

    private Block? Read()
    {
        var metric = Habits.Metric;
        return new GridReader(new FormReader(ModelState, nameof(Form), metric), Form, metric).Read();
    }
}
