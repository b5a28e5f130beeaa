using KittingBee.Web.Classes;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages;

/// <summary>What was taken out within the last thirty days, each with a way back.</summary>
public sealed class TakenOutModel(
    RemovedStore removed, ClassStore classes, BlockStore blocks, DraftStore drafts, FabricStore fabrics, ShelfStore shelf, RosterStore roster, ColourwayStore colourways, ProjectStore projects,
    ClassPlanning planning) : PageModel
{
    public IReadOnlyList<RemovedThing> Things { get; private set; } = [];

    public void OnGet() => Things = removed.All();

    public static string Kind(RemovedThing thing) => thing.Kind switch
    {
        "draft" => Say("drawing of a block"),
        "project" => Say("project of a block"),
        "piece" => Say("piece on the shelf"),
        "class" => Say("class"),
        "block" => Say("block"),
        "fabric" => Say("fabric"),
        "student" => Say("student"),
        "colourway" => Say("colourway"),
        _ => thing.Kind,
    };

    public static string Name(RemovedThing thing) => thing.Kind switch
    {
        "draft" => thing.Name.Length == 0 ? Say("a new block") : thing.Name,
        "piece" => $"{(thing.Name switch { "remnant" => Many(1, "remnant"), "length" => Many(1, "length"), _ => Many(1, "bolt") })}, {thing.Of}",
        "student" or "colourway" => $"{thing.Name}, {thing.Of}",
        _ => thing.Name,
    };

    /// <summary>When it goes for good, in words.</summary>
    public static string Until(RemovedThing thing) => BackupText.Day(thing.DeletedAt, RemovedStore.Days);

    public async Task<IActionResult> OnPostPutBack(string? kind, long id)
    {
        // Only what the page lists: cloth that a class cut up stays away.
        if (removed.All().FirstOrDefault(item => item.Kind == kind && item.Id == id) is not { } thing)
        {
            return NotFound();
        }

        var done = thing.Kind switch
        {
            "class" => await classes.PutBack(id),
            "block" => await blocks.PutBack(id),
            "draft" => await drafts.PutBack(id),
            "project" => await projects.PutBack(id),
            "fabric" => await fabrics.PutBack(id),
            "piece" => await shelf.PutBack(id),
            "student" => await roster.PutBack(thing.ClassId, id),
            _ => await colourways.PutBack(thing.ClassId, id),
        };
        var anew = done && thing.Kind == "class" ? await planning.HoldAgain(id) : [];
        Notice.Show(TempData, done ? Say($"{Name(thing)} is back.") + ClassText.PlannedAnew(anew) : Say("Another drawing of that block has begun since: the old one stays away."));
        return RedirectToPage();
    }
}
