using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Classes;

/// <summary>What every page of a class needs around it.</summary>
public sealed class ClassDesk(ClassPlanning planning, PackingStore packing, SettlingStore settling)
{
    public async Task<(ClassMaterials Materials, ClassPlan Plan, IReadOnlyList<JobStage> Stages)?> Open(long classId)
    {
        if (planning.Materials(classId) is not { } materials)
        {
            return null;
        }

        var plan = await planning.Plan(materials);
        return (materials, plan, JobLine.Of(materials, plan, packing.WholeKitMarks(classId), settling.Purchases(classId), settling.Leftovers(classId)));
    }
}

/// <summary>A page of a class: under the selvage, with the job line. Call <see cref="Open"/> first.</summary>
public abstract class ClassPage(ClassDesk desk) : PageModel
{
    public ClassMaterials Materials { get; private set; } = null!;

    public ClassPlan Plan { get; private set; } = null!;

    public IReadOnlyList<JobStage> Stages { get; private set; } = [];

    /// <summary>The stage that the page belongs to, as in <see cref="JobStage.Name"/>; empty for the overview.</summary>
    public abstract string Stage { get; }

    public ClassHabits Habits => Plan.Habits;

    public ClassRecord Record => Materials.Record;

    /// <summary>Letters of the pattern with their names, in order.</summary>
    public IReadOnlyList<BlockFabric> Letters => Plan.Letters;

    /// <summary>What is wrong with the class. That kits lack a colourway is nothing wrong before there is any: it comes next.</summary>
    public IEnumerable<Problem> ToPutRight => Plan.Problems.Where(problem => problem.Field != "colourways" || Plan.Colourways.Count > 0);

    /// <summary>Reads and plans the class; false where there is none.</summary>
    protected async Task<bool> Open(long classId)
    {
        if (await desk.Open(classId) is not { } open)
        {
            return false;
        }

        (Materials, Plan, Stages) = open;
        return true;
    }

    /// <summary>Says so where the class is closed, and nothing about it may change.</summary>
    protected bool ClassIsOpen()
    {
        if (Record.IsClosed)
        {
            ModelState.AddModelError("", Say("This class is closed: open it again on its Settle page before changing it."));
        }

        return !Record.IsClosed;
    }
}
