using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Blocks;

/// <summary>One block: its drawing, and all that follows from it.</summary>
public sealed class BlockModel(BlockStore blocks, DraftStore drafts, GuildStore guild) : PageModel
{
    public StoredBlock Stored { get; private set; } = new();

    public Block? Block { get; private set; }

    public ClassHabits Habits { get; private set; } = new(false, false, "USD");

    public CuttingRules Rules { get; private set; } = new();

    public CutList? CutList { get; private set; }

    public IReadOnlyList<Problem> Problems { get; private set; } = [];

    public PressingPlan? Pressing { get; private set; }

    public IReadOnlyList<MethodEffect> Effects { get; private set; } = [];

    public bool HasDraft { get; private set; }

    /// <summary>How it is made, from the address: the page can be bookmarked and nothing is stored.</summary>
    [BindProperty(SupportsGet = true, Name = "made")]
    public MadeForm Made { get; set; } = new();

    public IActionResult OnGet(long id)
    {
        if (blocks.Find(id) is not { } stored)
        {
            return NotFound();
        }

        Stored = stored;
        Habits = Showing.Habits.Of(guild.Read());
        HasDraft = drafts.OfBlock(id) is not null;
        Rules = Made.Read(new FormReader(ModelState, "made", Habits.Metric), Habits);
        if (stored.Json is null)
        {
            return Redirect($"/blocks/{id}/typed");
        }

        var reading = BlockJson.Read(stored.Json);
        Block = reading.Block;
        Problems = reading.Problems;
        if (Block is null)
        {
            return Page();
        }

        var result = CutLists.For(Block, Rules);
        CutList = result.CutList;
        Problems = result.Problems;
        if (CutList is not null)
        {
            Pressing = PressingPlan.For(Block);
            Effects = MethodEffects.For(Block, Rules);
        }

        return Page();
    }

    /// <summary>Opens the draft of the block, begun from the block as it is now where there is none.</summary>
    public async Task<IActionResult> OnPostEdit(long id)
    {
        if (blocks.Find(id) is not { Json: { } json } stored)
        {
            return NotFound();
        }

        var habits = Showing.Habits.Of(guild.Read());
        var sketch = BlockJson.Read(json).Block is { } block ? BlockSketch.Of(block, habits) : new BlockSketch { Name = stored.Name };
        var draft = await drafts.Begin(new BlockDraft { BlockId = id, BlockVersion = stored.Version, SketchJson = sketch.ToJson() });
        return Redirect($"/blocks/drafts/{draft}");
    }

    public async Task<IActionResult> OnPostCopy(long id)
    {
        if (blocks.Find(id) is not { } stored)
        {
            return NotFound();
        }

        var name = stored.Name.Length > BlockLimits.NameLength - 10 ? stored.Name : "Copy of " + stored.Name;
        var json = stored.Json is { } text && BlockJson.Read(text).Block is { } block ? BlockJson.Write(block with { Name = name }) : stored.Json;
        var copy = await blocks.Add(stored with { Name = name, Json = json });
        Notice.Say(TempData, $"This is the copy: {name}.", $"/blocks/{copy}?handler=Remove");
        return Redirect(PageAddresses.Block(copy));
    }

    public async Task<IActionResult> OnPostRemove(long id)
    {
        var name = blocks.Find(id)?.Name;
        if (name is not null && await blocks.Remove(id))
        {
            Notice.Say(TempData, $"{name} is removed. Classes that use it keep their own copy.", $"/blocks/{id}?handler=PutBack");
        }

        return Redirect("/blocks");
    }

    public async Task<IActionResult> OnPostPutBack(long id)
    {
        await blocks.PutBack(id);
        Notice.Say(TempData, "The block is back.");
        return Redirect(PageAddresses.Block(id));
    }
}
