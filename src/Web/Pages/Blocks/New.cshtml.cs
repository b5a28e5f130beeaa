using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Blocks;
using KittingBee.Web.Forms;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Blocks;

/// <summary>Begins a block: from a traditional one, or from an empty grid.</summary>
public sealed class NewModel(DraftStore drafts, BlockStore blocks, GuildStore guild) : BlockPage(blocks, guild)
{
    private const int MostCells = 12;

    [BindProperty]
    public GridForm Form { get; set; } = new();

    public void OnGet() => Form = Habits.Metric ? new() { Side = "8" } : new();

    public async Task<IActionResult> OnPostStarter(string? key)
    {
        if (Starters.Find(key) is not { } starter)
        {
            return NotFound();
        }

        return await Begin(BlockSketch.Of(starter.Block, Habits));
    }

    public async Task<IActionResult> OnPostGrid()
    {
        var reader = new FormReader(ModelState, nameof(Form), Habits.Metric);
        var name = reader.Needed(nameof(Form.Name), Form.Name, "The block’s name", BlockLimits.NameLength);
        var columns = reader.Whole(nameof(Form.Columns), Form.Columns, "The number of columns", 1, MostCells);
        var rows = reader.Whole(nameof(Form.Rows), Form.Rows, "The number of rows", 1, MostCells);
        var side = reader.Size(nameof(Form.Side), Form.Side, "The finished size of a cell");
        if (!reader.IsGood)
        {
            Response.StatusCode = StatusCodes.Status400BadRequest;
            return Page();
        }

        var empty = new Block(name, [.. Enumerable.Repeat(side, columns)], [.. Enumerable.Repeat(side, rows)], [new("A", "background"), new("B", "main")], []);
        return await Begin(BlockSketch.Of(empty, Habits));
    }

    private async Task<IActionResult> Begin(BlockSketch sketch) =>
        Redirect($"/blocks/drafts/{await drafts.Begin(new BlockDraft { SketchJson = sketch.ToJson() })}");

    /// <summary>An empty grid as typed.</summary>
    public sealed class GridForm
    {
        public string? Name { get; set; }

        public string? Columns { get; set; } = "3";

        public string? Rows { get; set; } = "3";

        public string? Side { get; set; } = "3";
    }
}
