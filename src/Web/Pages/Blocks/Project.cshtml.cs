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

/// <summary>A block set into a whole piece: every piece to cut, and a drawing. It all stands in the address, so it can be bookmarked.</summary>
public sealed class ProjectModel(BlockStore blocks, GuildStore guild) : PageModel
{
    [BindProperty(SupportsGet = true, Name = "project")]
    public ProjectForm Form { get; set; } = new();

    public StoredBlock Stored { get; private set; } = new();

    public Block Block { get; private set; } = null!;

    public Project? Project { get; private set; }

    public ProjectResult? Result { get; private set; }

    public ClassHabits Habits { get; private set; } = new(false, false, "USD");

    public CuttingRules Rules { get; private set; } = new();

    /// <summary>The cut list as lines, for a typed list that a class can use.</summary>
    public string Lines { get; private set; } = "";

    public IReadOnlyList<BlockFabric> Fabrics => [.. Block.Fabrics, .. Project?.Fabrics ?? []];

    public IActionResult OnGet(long id)
    {
        if (blocks.Find(id) is not { Json: { } json } stored || BlockJson.Read(json).Block is not { } block)
        {
            return NotFound();
        }

        (Stored, Block, Habits) = (stored, block, Showing.Habits.Of(guild.Read()));
        Rules = UsualRules.For(Habits.Metric);
        if (Form.Across is null)
        {
            Form.Begin(block, Habits);
        }

        var reader = new FormReader(ModelState, "project", Habits.Metric);
        var project = Form.Read(reader);
        if (!reader.IsGood)
        {
            return Page();
        }

        Project = project;
        Result = ProjectCutLists.For(block, project, Rules);
        foreach (var problem in Result.Problems)
        {
            ModelState.AddModelError("", problem.Message);
        }

        Lines = Result.CutList is { } list ? CutListLines.Write(list, Habits) : "";
        return Page();
    }
}
