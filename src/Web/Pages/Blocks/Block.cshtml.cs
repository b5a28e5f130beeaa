using KittingBee.Planning.Blocks;
using KittingBee.Web.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Blocks;

/// <summary>One block: its drawing, and all that follows from it.</summary>
public sealed class BlockModel(BlockStore blocks, DraftStore drafts, GuildStore guild) : BlockPage(blocks, guild)
{
    private const string MadePrefix = "made";

    public CuttingRules Rules { get; private set; } = new();

    public CutList? CutList { get; private set; }

    public PressingPlan? Pressing { get; private set; }

    public IReadOnlyList<MethodEffect> Effects { get; private set; } = [];

    public bool HasDraft { get; private set; }

    /// <summary>How it is made: as kept with the block, with what the address or the form says put over it.</summary>
    public MadeForm Made { get; private set; } = new();

    /// <summary>True where the page shows a way that is not the kept one.</summary>
    public bool IsTried { get; private set; }

    public async Task<IActionResult> OnGet(long id)
    {
        if (!Open(id))
        {
            return NotFound();
        }

        if (Stored.Json is null)
        {
            return Redirect($"/blocks/{id}/typed");
        }

        await ReadMade();
        Show();
        return Page();
    }

    /// <summary>Shows the block made another way, under an address that can be kept; nothing is stored.</summary>
    public async Task<IActionResult> OnPostShow(long id)
    {
        if (!Open(id))
        {
            return NotFound();
        }

        await ReadMade();
        return Redirect($"/blocks/{id}{Made.ToQuery()}#made");
    }

    /// <summary>Keeps with the block how it is made.</summary>
    public async Task<IActionResult> OnPostKeep(long id)
    {
        if (!Open(id) || Stored.Json is null)
        {
            return NotFound();
        }

        var rules = await ReadMade();
        Show();
        if (!ModelState.IsValid)
        {
            Response.StatusCode = StatusCodes.Status400BadRequest;
            return Page();
        }

        return await Keep(UsualRules.ToKeep(rules), Say($"{Stored.Name} is made this way from now on."));
    }

    /// <summary>Forgets how the block is made: the usual way holds again.</summary>
    public async Task<IActionResult> OnPostForget(long id)
    {
        if (!Open(id) || Stored.Json is null)
        {
            return NotFound();
        }

        await ReadMade();
        ModelState.Clear();
        Show();
        return await Keep(null, Say($"{Stored.Name} is made the usual way again."));
    }

    /// <summary>Opens the draft of the block, begun from the block as it is now where there is none.</summary>
    public async Task<IActionResult> OnPostEdit(long id)
    {
        if (!Open(id) || Stored.Json is null)
        {
            return NotFound();
        }

        var sketch = Block is { } block ? BlockSketch.Of(block, Habits) : new BlockSketch { Name = Stored.Name };
        var draft = await drafts.Begin(new BlockDraft { BlockId = id, BlockVersion = Stored.Version, SketchJson = sketch.ToJson() });
        return Redirect($"/blocks/drafts/{draft}");
    }

    public async Task<IActionResult> OnPostCopy(long id)
    {
        if (!Open(id))
        {
            return NotFound();
        }

        var name = Stored.Name.Length > BlockLimits.NameLength - 10 ? Stored.Name : Say($"Copy of {Stored.Name}");
        var copy = await Store.Add(Stored with { Name = name, Json = Block is { } block ? BlockJson.Write(block with { Name = name }) : Stored.Json });
        Notice.Say(TempData, $"This is the copy: {name}.", $"/blocks/{copy}?handler=Remove");
        return Redirect(PageAddresses.Block(copy));
    }

    public async Task<IActionResult> OnPostRemove(long id)
    {
        if (Open(id) && await Store.Remove(id))
        {
            Notice.Say(TempData, $"{Stored.Name} is removed. Classes that use it keep their own copy.", $"/blocks/{id}?handler=PutBack");
        }

        return Redirect("/blocks");
    }

    public async Task<IActionResult> OnPostPutBack(long id)
    {
        await Store.PutBack(id);
        Notice.Say(TempData, "The block is back.");
        return Redirect(PageAddresses.Block(id));
    }

    /// <summary>What is kept, with what was sent put over it.</summary>
    private async Task<CuttingRules> ReadMade()
    {
        var kept = UsualRules.Of(Stored, Habits.Metric);
        Made = MadeForm.Of(kept, Habits, Stored.Version);
        await TryUpdateModelAsync(Made, MadePrefix);
        Rules = Made.Read(new FormReader(ModelState, MadePrefix, Habits.Metric), Habits);
        IsTried = Rules != kept;
        return Rules;
    }

    private async Task<IActionResult> Keep(KeptRules? rules, string done)
    {
        switch (await Store.KeepRules(Stored.Id, Made.Version, rules))
        {
            case Saved.Gone:
                return NotFound();
            case Saved.Stale:
                this.SayStale(MadeForm.Of(UsualRules.Of(Stored, Habits.Metric), Habits, 0), Made, () => Made.Version = Stored.Version, "made.Version");
                return Page();
            default:
                Notice.Show(TempData, done);
                return Redirect(PageAddresses.Block(Stored.Id) + "#made");
        }
    }

    private void Show()
    {
        HasDraft = drafts.OfBlock(Stored.Id) is not null;
        if (Block is null)
        {
            return;
        }

        (CutList, Problems) = CutLists.For(Block, Rules);
        if (CutList is not null)
        {
            Pressing = PressingPlan.For(Block);
            Effects = MethodEffects.For(Block, Rules);
        }
    }
}
