using System.Text;
using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Blocks;

/// <summary>A block: drawing, cut list, units and steps.</summary>
public sealed class BlockModel(GuildStore guild, BlockStore blocks) : PageModel
{
    public StoredBlock Stored { get; private set; } = new();

    public Block? Block { get; private set; }

    public CutList? CutList { get; private set; }

    public IReadOnlyList<Problem> Problems { get; private set; } = [];

    public ClassHabits Habits { get; private set; } = new(false, false, "USD");

    public CuttingRules Rules { get; private set; } = new();

    public bool FitsGridForm => Block is not null && GridForm.CanHold(Block);

    public IActionResult OnGet(long id)
    {
        if (blocks.Find(id) is not { } stored)
        {
            return NotFound();
        }

        Stored = stored;
        Habits = Showing.Habits.Of(guild.Read());
        Rules = UsualRules.For(Habits.Metric);
        (Block, CutList, Problems) = ClassCutList.Of(stored.Json, stored.TypedLines, Rules);
        return Page();
    }

    /// <summary>The block as a file that can be brought in again.</summary>
    public IActionResult OnGetFile(long id) => blocks.Find(id) is { Json: { } json } stored
        ? File(Encoding.UTF8.GetBytes(json), "application/json", FileNames.For(stored.Name, "json"))
        : NotFound();

    public async Task<IActionResult> OnPostRemove(long id)
    {
        if (blocks.Find(id) is not { } stored || !await blocks.Remove(id))
        {
            return NotFound();
        }

        Notice.Say(TempData, $"{stored.Name} is removed. Classes that use it keep their copy.", $"/blocks?handler=PutBack&id={id}");
        return Redirect("/blocks");
    }
}
