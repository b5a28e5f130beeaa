using System.Globalization;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Classes;

/// <summary>Starts a class, or changes what it is.</summary>
public sealed class EditModel(GuildStore guild, BlockStore blocks, ProjectStore projects, ClassStore classes) : PageModel
{
    private const string ProjectKey = "project-";

    [BindProperty(SupportsGet = true)]
    public long? ClassId { get; set; }

    [BindProperty]
    public ClassForm Form { get; set; } = new();

    public bool IsNew => ClassId is null;

    public ClassRecord Stored { get; private set; } = new();

    public IReadOnlyList<StoredBlock> Blocks { get; private set; } = [];

    public IReadOnlyList<StoredProject> Projects { get; private set; } = [];

    /// <summary>True when a field that is folded away has a message.</summary>
    public bool ShowsMore => ModelState.Any(entry => entry.Value?.Errors.Count > 0 && entry.Key is not
        ("Form.Title" or "Form.BlockId" or "Form.HeldOn" or "Form.HeldTime" or "Form.Place" or "Form.Places" or "Form.BlocksPerKit" or "Form.SpareKits" or "Form.SampleKits" or "Form.KitsOnly" or ""));

    public IActionResult OnGet(long? block, long? project)
    {
        var pattern = Key(block, project);
        if (!Open(pattern))
        {
            return NotFound();
        }

        Form = ClassForm.From(Stored);
        Form.BlockId = pattern;
        if (IsNew && Pattern(pattern) is { Block: { } chosen } from)
        {
            Form.Title = from.Project?.Name ?? chosen.Name; // What most classes are called; a click into the field changes it.
        }

        return Page();
    }

    public async Task<IActionResult> OnPost(long? block, long? project)
    {
        var startedFrom = Key(block, project);
        if (!Open(startedFrom))
        {
            return NotFound();
        }

        var reader = new FormReader(ModelState, nameof(Form), Form.Units == "centimetres");
        var (chosen, setInto) = Pattern(Form.BlockId);
        if (!string.IsNullOrEmpty(Form.BlockId) && chosen is null)
        {
            reader.Wrong(nameof(Form.BlockId), "That block or project was removed: choose another one.");
        }

        var record = Form.Read(reader, Stored, chosen, setInto);
        if (IsNew && chosen is not null && Form.BlockId != startedFrom && MadeAsOffered(record))
        {
            record = MadeAsKept(record, chosen);
        }

        if (Stored.IsClosed)
        {
            ModelState.AddModelError("", Say("This class is closed: open it again on its Settle page before changing it."));
        }

        Check(reader, record);
        if (!reader.IsGood)
        {
            return Page();
        }

        if (IsNew)
        {
            var id = await classes.Add(record);
            return Redirect(PageAddresses.Class(id));
        }

        switch (await classes.Save(record))
        {
            case Saved.Gone:
                return NotFound();
            case Saved.Stale:
                var now = classes.Find(record.Id)!;
                this.SayStale(ClassForm.From(now), Form, () => Form.Version = now.Version);
                return Page();
            default:
                Notice.Say(TempData, $"{record.Title} is saved.");
                return Redirect(PageAddresses.Class(record.Id));
        }
    }

    public async Task<IActionResult> OnPostRemove()
    {
        if (ClassId is not { } id || classes.Find(id) is not { } record || !await classes.Remove(id))
        {
            return NotFound();
        }

        Notice.Say(TempData, $"{record.Title} is removed, and the cloth set aside for it is free.", $"/classes?handler=PutBack&id={id}");
        return Redirect("/classes");
    }

    /// <summary>The choice that an address asks for.</summary>
    private static string? Key(long? block, long? project) =>
        project is not null ? FormattableString.Invariant($"{ProjectKey}{project}") : block?.ToString(CultureInfo.InvariantCulture);

    /// <summary>The block and project of a choice; nothing where it is not there any more.</summary>
    private (StoredBlock? Block, StoredProject? Project) Pattern(string? choice)
    {
        if (choice is not null && choice.StartsWith(ProjectKey, StringComparison.Ordinal))
        {
            return long.TryParse(choice.AsSpan(ProjectKey.Length), NumberStyles.None, CultureInfo.InvariantCulture, out var projectId) && projects.Find(projectId) is { } project
                ? (blocks.FindEver(project.BlockId), project)
                : (null, null);
        }

        return (long.TryParse(choice, NumberStyles.None, CultureInfo.InvariantCulture, out var id) ? blocks.Find(id) : null, null);
    }

    /// <summary>Whether nobody chose another way of making than the page offered: then a block brings its own.</summary>
    private bool MadeAsOffered(ClassRecord record) =>
        record.Metric == Stored.Metric && record.SeamAllowance == Stored.SeamAllowance && record.CuttingStep == Stored.CuttingStep
        && record.BlocksPerKit == Stored.BlocksPerKit && StoredJson.Read<Methods>(record.MethodsJson) == StoredJson.Read<Methods>(Stored.MethodsJson);

    private static ClassRecord MadeAsKept(ClassRecord record, StoredBlock block) => block.Rules is not { } kept ? record : record with
    {
        SeamAllowance = kept.SeamAllowance,
        CuttingStep = kept.CuttingStep,
        MethodsJson = kept.MethodsJson,
        BlocksPerKit = kept.BlocksPerKit,
    };

    private bool Open(string? startFrom)
    {
        Blocks = blocks.All();
        Projects = projects.All();
        if (ClassId is { } id)
        {
            if (classes.Find(id) is not { } record)
            {
                return false;
            }

            Stored = record;
            return true;
        }

        var settings = guild.Read();
        var rules = UsualRules.For(settings.Metric);
        Stored = new ClassRecord
        {
            Units = settings.Units,
            Paper = settings.Paper,
            Currency = settings.Currency,
            SeamAllowance = rules.SeamAllowance,
            CuttingStep = rules.CuttingStep,
            LongestStrip = settings.Metric ? Length.FromMillimetres(600m) : Length.FromInches(24),
            SampleKits = 1,
        };
        Stored = Pattern(startFrom).Block is { } block ? MadeAsKept(Stored, block) : Stored;
        return true;
    }

    // A block that does not fit the class's rules is told now, not when the first kit is cut.
    private static void Check(FormReader reader, ClassRecord record)
    {
        if (!reader.IsGood)
        {
            return;
        }

        foreach (var problem in ClassCutList.Of(new ClassMaterials(record, [], [], [], new Dictionary<long, Fabric>(), [])).Problems)
        {
            reader.WrongAsSaid(problem.Field == "seamAllowance" ? nameof(ClassForm.SeamAllowance) : problem.Field == "cuttingStep" ? nameof(ClassForm.CuttingStep) : nameof(ClassForm.BlockId), Say(problem.Said));
        }
    }
}
