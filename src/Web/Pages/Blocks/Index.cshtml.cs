using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Drawing;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Blocks;

/// <summary>One block or project of the list: its drawing (empty for a typed list) and a line or two about it.</summary>
public sealed record ListedBlock(long Id, string Name, string Drawing, string Says);

/// <summary>A draft that nobody has saved as a block yet.</summary>
public sealed record ListedDraft(long Id, string Name, string Drawing, string Says);

/// <summary>The guild's blocks and drafts; brings in blocks from files.</summary>
public sealed class IndexModel(BlockStore blocks, DraftStore drafts, ProjectStore projects, GuildStore guild) : BlockPage(blocks, guild)
{
    private const int DrawingWidth = 150;

    public IReadOnlyList<ListedBlock> Blocks { get; private set; } = [];

    public IReadOnlyList<ListedBlock> Projects { get; private set; } = [];

    public IReadOnlyList<ListedDraft> Drafts { get; private set; } = [];

    /// <summary>What was pasted, kept where it could not be read.</summary>
    [BindProperty]
    public string? Text { get; set; }

    public void OnGet() => Load();

    public async Task<IActionResult> OnPostImport(IFormFile? file)
    {
        var text = file is null ? Text ?? "" : await Contents(file);
        if (string.IsNullOrWhiteSpace(text))
        {
            return Refuse(Say("There is nothing to bring in: choose a file, or paste a block’s text."));
        }

        var reading = BlockJson.Read(text);
        var problems = reading.Block is { } read ? CutLists.For(read, UsualRules.For(Habits.Metric)).Problems : reading.Problems;
        if (problems.Count > 0)
        {
            Text = text.Length <= 20_000 ? text : Text;
            return Refuse([.. problems.Select(problem => problem.Field.Length == 0 ? Say(problem.Said) : $"{problem.Field}: {Say(problem.Said)}")]);
        }

        var id = await Store.Add(new StoredBlock { Name = reading.Block!.Name, Json = BlockJson.Write(reading.Block) });
        Notice.Say(TempData, $"{reading.Block.Name} is on the list.", $"/blocks/{id}?handler=Remove");
        return Redirect(PageAddresses.Block(id));
    }

    public async Task<IActionResult> OnPostPutBackDraft(long id)
    {
        Notice.Show(TempData, await drafts.PutBack(id) ? Say("The draft is back.") : Say("Another draft of that block has begun since: the old one stays away."));
        return RedirectToPage();
    }

    private static async Task<string> Contents(IFormFile file)
    {
        if (file.Length > BlockJson.LongestText)
        {
            return new string('x', BlockJson.LongestText + 1); // Refused by its length, with the reader's own words.
        }

        using var reader = new StreamReader(file.OpenReadStream());
        return await reader.ReadToEndAsync();
    }

    private PageResult Refuse(params IReadOnlyList<string> messages)
    {
        foreach (var message in messages)
        {
            ModelState.AddModelError(nameof(Text), message);
        }

        Load();
        Response.StatusCode = StatusCodes.Status400BadRequest;
        return Page();
    }

    private void Load()
    {
        Blocks = [.. Store.All().Select(stored => Listed(stored, Habits))];
        Projects = [.. projects.All().Select(Listed)];
        Drafts = [.. drafts.All().Select(draft =>
        {
            var sketch = BlockSketch.Parse(draft.SketchJson) ?? new();
            var block = sketch.Read(Habits).Block;
            return new ListedDraft(
                draft.Id,
                sketch.Name.Trim().Length == 0 ? Say("A block without a name") : sketch.Name,
                block is null ? "" : BlockDrawing.Svg(block, new() { Width = DrawingWidth }),
                draft.BlockId is null ? Say("new, not saved yet") : Say("changes not saved yet"));
        })];
    }

    private static ListedBlock Listed(StoredBlock stored, ClassHabits habits)
    {
        if (stored.Json is null)
        {
            return new(stored.Id, stored.Name, BlockPicture.OfPieces(stored.TypedLines, habits.Metric, DrawingWidth), Say("typed cut list"));
        }

        return BlockJson.Read(stored.Json).Block is { } block
            ? new(stored.Id, stored.Name, BlockDrawing.Svg(block, new() { Width = DrawingWidth }), Size(block, habits))
            : new(stored.Id, stored.Name, "", Say("cannot be read any more"));
    }

    private ListedBlock Listed(StoredProject stored)
    {
        if (stored.BlockJson is null || BlockJson.Read(stored.BlockJson).Block is not { } block || ProjectJson.Read(stored.Json).Project is not { } project)
        {
            return new(stored.Id, stored.Name, "", Say("its block cannot be read any more"));
        }

        if (ProjectChecks.Check(block, project).Count > 0)
        {
            return new(stored.Id, stored.Name, BlockDrawing.Svg(block, new() { Width = DrawingWidth }), Say($"no longer fits {stored.BlockName}: open it to put it right"));
        }

        var layout = ProjectLayout.Of(block, project);
        return new(
            stored.Id,
            stored.Name,
            ProjectDrawing.Svg(block, project, new() { Width = DrawingWidth, Title = stored.Name }),
            $"{stored.BlockName}, {Many(project.Blocks, "block")}\n{Say($"{Habits.ShowPiece(layout.Width, layout.Height)} finished")}");
    }

    private static string Size(Block block, ClassHabits habits)
    {
        var width = block.Columns.Aggregate(Length.Zero, (sum, side) => sum + side);
        var height = block.Rows.Aggregate(Length.Zero, (sum, side) => sum + side);
        return $"{Say($"{habits.ShowPiece(width, height)} finished")}\n{Many(block.Fabrics.Count, "fabric")}";
    }
}
