using System.Text.Json;
using System.Text.Json.Nodes;
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

/// <summary>
/// The block editor. Without its script it is a form of lines; with it, the lines become a grid. Either way what is drawn is
/// kept as a draft until it is saved as the block.
/// </summary>
public sealed class DraftModel(DraftStore drafts, BlockStore blocks, GuildStore guild) : BlockPage(blocks, guild)
{
    private static readonly JsonSerializerOptions Web = new(JsonSerializerDefaults.Web);

    [BindProperty]
    public DraftForm Form { get; set; } = new();

    public BlockDraft Draft { get; private set; } = new();

    public BlockCheck Check { get; private set; } = null!;

    /// <summary>What could not be read, or stands in the way of saving.</summary>
    public IReadOnlyList<string> Wrong { get; private set; } = [];

    /// <summary>False where what the page shows is not yet the draft that is kept.</summary>
    public bool IsKept { get; private set; }

    /// <summary>True where the block itself was changed or removed since the draft began.</summary>
    public bool BlockChanged { get; private set; }

    /// <summary>What the script starts from, safe inside a page.</summary>
    public string Data { get; private set; } = "{}";

    public IActionResult OnGet(long id)
    {
        if (drafts.Find(id) is not { } draft)
        {
            return NotFound();
        }

        IsKept = true;
        Show(draft, BlockSketch.Parse(draft.SketchJson) ?? new());
        return Page();
    }

    /// <summary>Keeps the draft and shows it checked.</summary>
    public Task<IActionResult> OnPostCheck(long id) => Post(id, publish: false);

    /// <summary>Keeps the draft and makes it the block.</summary>
    public Task<IActionResult> OnPostSave(long id) => Post(id, publish: true);

    public async Task<IActionResult> OnPostDiscard(long id)
    {
        var draft = drafts.Find(id);
        if (await drafts.Discard(id))
        {
            Notice.Say(TempData, "The draft is thrown away.", $"/blocks?id={id}&handler=PutBackDraft");
        }

        return Redirect(draft?.BlockId is { } blockId ? PageAddresses.Block(blockId) : "/blocks");
    }

    private async Task<IActionResult> Post(long id, bool publish)
    {
        if (drafts.Find(id) is not { } draft)
        {
            return NotFound();
        }

        var (sketch, wrong) = Form.Read(Habits);
        if (wrong.Count > 0)
        {
            return Refuse(draft, sketch, wrong);
        }

        if ((await drafts.Keep(id, Form.Version, sketch.ToJson())).Saved != Saved.Done)
        {
            var result = Refuse(draft, sketch, []);
            this.SayStale(DraftForm.Of(BlockSketch.Parse(draft.SketchJson) ?? new(), 0), DraftForm.Of(sketch, 0), () => Form.Version = draft.Version);
            return result;
        }

        IsKept = true;
        draft = drafts.Find(id) ?? draft;
        return publish ? await Publish(draft, sketch) : Shown(draft, sketch);
    }

    private async Task<IActionResult> Publish(BlockDraft draft, BlockSketch sketch)
    {
        var reading = sketch.Read(Habits);
        var problems = reading.Block is { } read ? CutLists.For(read, UsualRules.For(Habits.Metric)).Problems : reading.Problems;
        if (problems.Count > 0 || reading.Block is not { } block)
        {
            return Refuse(draft, sketch, [Say("The draft is kept, but it is not yet a block that can be cut."), .. problems.Select(problem => Say(problem.Said))]);
        }

        var (saved, blockId) = await drafts.Publish(draft, block.Name.Trim(), BlockJson.Write(block with { Name = block.Name.Trim() }), Form.Overwrite);
        if (saved == Saved.Done)
        {
            Notice.Say(TempData, $"{block.Name} is saved.");
            return Redirect(PageAddresses.Block(blockId));
        }

        BlockChanged = true;
        Response.StatusCode = StatusCodes.Status409Conflict;
        return Refuse(
            draft,
            sketch,
            [saved == Saved.Gone
                ? Say("The block was removed while you were drawing. Your draft is kept: tick the box below and save again to bring it in as a new block.")
                : Say("The block was changed elsewhere while you were drawing. Your draft is kept: tick the box below and save again to replace what is there now.")],
            keepStatus: true);
    }

    private PageResult Shown(BlockDraft draft, BlockSketch sketch)
    {
        ModelState.Clear();
        Show(draft, sketch);
        return Page();
    }

    private PageResult Refuse(BlockDraft draft, BlockSketch sketch, IReadOnlyList<string> wrong, bool keepStatus = false)
    {
        if (!keepStatus)
        {
            Response.StatusCode = StatusCodes.Status400BadRequest;
        }

        Wrong = wrong;
        var lines = Form.Units;
        var result = Shown(draft, sketch);
        Form.Units = Form.Json is { Length: > 0 } ? Form.Units : lines ?? Form.Units;
        return result;
    }

    private void Show(BlockDraft draft, BlockSketch sketch)
    {
        Draft = draft;
        Check = BlockCheck.Of(sketch, Habits);
        var json = Form.Json;
        Form = DraftForm.Of(sketch, draft.Version);
        Form.Json = json;
        Data = new JsonObject
        {
            ["id"] = draft.Id,
            ["began"] = draft.CreatedAt,
            ["version"] = draft.Version,
            ["metric"] = Habits.Metric,
            ["sketch"] = JsonNode.Parse(sketch.ToJson()),
            ["check"] = JsonSerializer.SerializeToNode(Check, Web),
            ["blocks"] = new JsonArray([.. Store.All().Where(block => block.Json is not null && block.Id != draft.BlockId)
                .Select(block => new JsonObject { ["id"] = block.Id, ["name"] = block.Name })]),
        }.ToJsonString();
    }

    /// <summary>A drawing of one unit, for the button that puts it down.</summary>
    public static string Icon(UnitKind kind)
    {
        var three = Length.FromInches(3);
        var unit = new Unit
        {
            Row = 0,
            Column = 0,
            Kind = kind,
            Fabrics = kind switch
            {
                UnitKind.Plain or UnitKind.Template or UnitKind.PiecedTriangle => ["B"],
                UnitKind.HalfSquareTriangle or UnitKind.SquareInASquare => kind == UnitKind.SquareInASquare ? ["B", "A"] : ["A", "B"],
                UnitKind.QuarterSquareTriangle => ["A", "B", "A", "B"],
                UnitKind.FlyingGeese => ["B", "A", "A"],
                UnitKind.FlippedCorners => ["A", "B", null, null, "B"],
                UnitKind.Rails => ["A", "B", "A"],
                _ => [],
            },
            Patches = kind == UnitKind.Checkerboard ? [["A", "B"], ["B", "A"]] : null,
            Corner = kind == UnitKind.FlippedCorners ? Length.FromInches(1) : null,
            CutWidth = kind == UnitKind.Template ? three : null,
            CutHeight = kind == UnitKind.Template ? three : null,
            Inner = kind switch
            {
                UnitKind.Block => Starters.Find("pinwheel")?.Block,
                UnitKind.PiecedTriangle => new("half", [three, three], [three, three], [new("A", ""), new("B", "")], [.. Enumerable.Range(0, 4).Select(cell => new Unit
                {
                    Row = cell / 2, Column = cell % 2, Kind = UnitKind.Plain, Fabrics = [cell == 0 ? "B" : "A"],
                })]),
                _ => null,
            },
        };
        var width = kind == UnitKind.FlyingGeese ? three * 2 : three;
        return Documents.Drawing.BlockDrawing.Svg(
            new("unit", [width], [three], [new("A", ""), new("B", "")], [unit]),
            new() { Width = kind == UnitKind.FlyingGeese ? 44 : 28, Title = Say(UnitKinds.InWords(kind)) });
    }
}
