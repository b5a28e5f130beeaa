using KittingBee.Planning.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Blocks;

/// <summary>
/// A block set into a whole piece: every piece to cut, and a drawing. Under the block's address nothing is stored until it is
/// saved; a saved project has an address of its own.
/// </summary>
public sealed class ProjectModel(BlockStore blocks, ProjectStore projects, GuildStore guild) : BlockPage(blocks, guild)
{
    private const string Prefix = "project";

    // Longer addresses are refused by servers on the way.
    private const int LongestQuery = 4000;

    /// <summary>The block, for a project that is not saved.</summary>
    [BindProperty(SupportsGet = true)]
    public long? Id { get; set; }

    /// <summary>The saved project.</summary>
    [BindProperty(SupportsGet = true)]
    public long? ProjectId { get; set; }

    public ProjectForm Form { get; private set; } = new();

    public StoredProject? Saved { get; private set; }

    public Project? Project { get; private set; }

    public ProjectResult? Result { get; private set; }

    /// <summary>True where the page shows something that is not saved.</summary>
    public bool IsTried { get; private set; }

    public string Address => ProjectId is { } saved ? PageAddresses.Project(saved) : $"/blocks/{Id}/project";

    public IReadOnlyList<BlockFabric> Fabrics => [.. Block!.Fabrics, .. Project?.Fabrics ?? []];

    public async Task<IActionResult> OnGet()
    {
        if (!Open())
        {
            return NotFound();
        }

        await ReadForm();
        return Page();
    }

    /// <summary>Shows what was typed, under an address that can be kept where it is short enough; nothing is stored.</summary>
    public async Task<IActionResult> OnPostShow()
    {
        if (!Open())
        {
            return NotFound();
        }

        await ReadForm();
        var query = Form.ToQuery();
        return query.Value!.Length <= LongestQuery ? Redirect(Address + query) : Page();
    }

    public async Task<IActionResult> OnPostSave()
    {
        if (!Open())
        {
            return NotFound();
        }

        await ReadForm();
        var name = new FormReader(ModelState, Prefix, Habits.Metric).Needed(nameof(Form.Name), Form.Name, "The project’s name", BlockLimits.NameLength);
        if (!ModelState.IsValid || Project is null)
        {
            Response.StatusCode = StatusCodes.Status400BadRequest;
            return Page();
        }

        var stored = new StoredProject { Id = ProjectId ?? 0, Name = name, BlockId = Stored.Id, Json = ProjectJson.Write(Project), Version = Form.Version };
        if (ProjectId is null)
        {
            var id = await projects.Add(stored);
            Notice.Say(TempData, $"{name} is saved.", $"{PageAddresses.Project(id)}?handler=Remove");
            return Redirect(PageAddresses.Project(id));
        }

        switch (await projects.Save(stored))
        {
            case Storage.Saved.Gone:
                return NotFound();
            case Storage.Saved.Stale:
                this.SayStale(ProjectForm.Of(ProjectJson.Read(Saved!.Json).Project!, Saved.Name, 0, Block!, Habits), Form, () => Form.Version = Saved.Version, "project.Version");
                return Page();
            default:
                Notice.Say(TempData, $"{name} is saved.");
                return Redirect(Address);
        }
    }

    public async Task<IActionResult> OnPostRemove()
    {
        if (ProjectId is { } id && projects.Find(id) is { } project && await projects.Remove(id))
        {
            Notice.Say(TempData, $"{project.Name} is removed. Classes that use it keep their own copy.", $"{PageAddresses.Project(id)}?handler=PutBack");
        }

        return Redirect("/blocks");
    }

    public async Task<IActionResult> OnPostPutBack()
    {
        if (ProjectId is not { } id || !await projects.PutBack(id))
        {
            return NotFound();
        }

        Notice.Say(TempData, "The project is back.");
        return Redirect(Address);
    }

    private bool Open()
    {
        if (ProjectId is { } saved)
        {
            if (projects.Find(saved) is not { } project || Store.FindEver(project.BlockId) is not { } block)
            {
                return false;
            }

            Saved = project;
            Open(block);
            return Block is not null;
        }

        return Id is { } id && Open(id) && Block is not null;
    }

    /// <summary>What is saved, with what was sent put over it, and what follows from it.</summary>
    private async Task ReadForm()
    {
        var first = Saved is { } saved && ProjectJson.Read(saved.Json).Project is { } stored
            ? ProjectForm.Of(stored, saved.Name, saved.Version, Block!, Habits)
            : ProjectForm.Begin(Block!, Habits);
        Form = first;
        await TryUpdateModelAsync(Form, Prefix);
        var reader = new FormReader(ModelState, Prefix, Habits.Metric);
        var project = Form.Read(reader);
        IsTried = Saved is null || Form.Name != Saved.Name || ProjectJson.Write(project) != Saved.Json;
        if (!reader.IsGood)
        {
            return;
        }

        Project = project;
        Result = ProjectCutLists.For(Block!, project, UsualRules.Of(Stored, Habits.Metric));
        foreach (var problem in Result.Problems)
        {
            ModelState.AddModelError(FieldOf(problem.Field), Say(problem.Said));
        }
    }

    /// <summary>The field of the form that a problem of the project belongs to; none for one of the block.</summary>
    private static string FieldOf(string field) => field switch
    {
        "project.across" => "project.Across",
        "project.down" => "project.Down",
        "project.alternate" => "project.Alternate",
        "project.settingTriangles" => "project.Triangles",
        "project.sashing.fabric" => "project.Sashing",
        "project.sashing.width" => "project.SashingWidth",
        "project.sashing.cornerstones" => "project.Cornerstones",
        "project.binding.fabric" => "project.Binding",
        "project.binding.stripWidth" => "project.BindingStrip",
        "project.backing.fabric" => "project.Backing",
        "project.backing.overhang" => "project.Overhang",
        "project.backing.usableWidth" => "project.BackingWidth",
        _ when field.StartsWith("project.borders", StringComparison.Ordinal) => "project.Borders",
        _ when field.StartsWith("project.fabrics", StringComparison.Ordinal) => "project.Fabrics",
        _ => "",
    };
}
