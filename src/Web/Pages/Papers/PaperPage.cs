using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Handouts;
using KittingBee.Web.Running;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Http.Features;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Papers;

/// <summary>A page made to be printed from the browser.</summary>
public abstract class PaperPage(ClassPlanning planning, ShareAddress share) : PageModel
{
    public ClassPlan Plan { get; private set; } = null!;

    public ClassMaterials Materials { get; private set; } = null!;

    public ClassRecord Record => Materials.Record;

    public ClassHabits Habits => Plan.Habits;

    /// <summary>Another paper than the class's own: <c>letter</c> or <c>a4</c>.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Paper { get; set; }

    public bool A4 => Paper switch { "a4" => true, "letter" => false, _ => Habits.PaperA4 };

    /// <summary>Which of the two page counters a handout or a ticket uses: neighbours differ, so that each begins at page 1.</summary>
    public static string Turn(int index) => index % 2 == 0 ? "one" : "other";

    /// <summary>Where to go back to.</summary>
    public virtual string Back => Showing.PageAddresses.Class(Plan.ClassId, "print");

    /// <summary>The whole address of a kit's own page, for the helper who packs it.</summary>
    public string BagAddress(PlannedKit kit) => share.Of(Request, Showing.PageAddresses.Bag(kit.Code));

    /// <summary>The whole address of a student's own page, by its link.</summary>
    public string OwnAddress(string link) => share.Of(Request, Showing.PageAddresses.Own(link));

    /// <summary>True where phones can follow the codes on the paper.</summary>
    public bool CodesLeadHere => share.LeadsHere(Request);

    /// <summary>True where the page lays itself out to the paper's edge, so that the browser must add no margin.</summary>
    public virtual bool ToTheEdge => false;

    /// <summary>Handouts, made one by one as they are asked for, and no more of them once nobody waits for the page.</summary>
    /// <param name="kits">Whose.</param>
    /// <param name="linkOf">The link of each kit's own page, by the kit's row.</param>
    protected IEnumerable<Handout> HandoutsOf(IEnumerable<PlannedKit> kits, IReadOnlyDictionary<long, string> linkOf)
    {
        // Where a buffer runs full between two words of a page that is on its way already, the page writes without waiting for the line.
        HttpContext.Features.Get<IHttpBodyControlFeature>()?.AllowSynchronousIO = true;
        var maker = new HandoutMaker(Plan, kit => linkOf.TryGetValue(kit.KitId, out var link) ? OwnAddress(link) : null);
        return kits.TakeWhile(_ => !HttpContext.RequestAborted.IsCancellationRequested).Select(maker.Of);
    }

    /// <summary>Reads and plans the class; false where there is none.</summary>
    protected async Task<bool> Open(long classId)
    {
        if (planning.Materials(classId) is not { } materials)
        {
            return false;
        }

        Materials = materials;
        Plan = await planning.Plan(materials);
        return true;
    }
}
