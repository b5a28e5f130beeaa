using KittingBee.Web.Classes;
using KittingBee.Web.Pages.Classes;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages;

/// <summary>One shopping list for several classes.</summary>
public sealed class SeasonModel(ClassStore classes, ClassPlanning planning, ShoppingDesk shopping) : PageModel
{
    /// <summary>The classes chosen; none for all that are open.</summary>
    [BindProperty(SupportsGet = true, Name = "class")]
    public long[] Chosen { get; set; } = [];

    [BindProperty]
    public BoughtForm Form { get; set; } = new();

    /// <summary>Classes that can be chosen: all that are not closed.</summary>
    public IReadOnlyList<ClassRecord> Offered { get; private set; } = [];

    public IReadOnlyList<ClassPlan> Plans { get; private set; } = [];

    /// <summary>Null where nothing is chosen, or not all is in one currency.</summary>
    public ShoppingView? Sheet { get; private set; }

    public bool IsChosen(ClassRecord record) => Plans.Any(plan => plan.ClassId == record.Id);

    public bool MixesCurrencies => Plans.Select(plan => plan.Habits.Currency).Distinct().Count() > 1;

    public async Task OnGet() => await OpenList();

    public async Task<IActionResult> OnPostTick(long fabricId, bool ticked)
    {
        await OpenList();
        return Sheet is not null && await shopping.Tick(Sheet.List, fabricId, ticked) ? Redirect($"{Sheet.Address}#line-{fabricId}") : NotFound();
    }

    public async Task<IActionResult> OnPostBought()
    {
        await OpenList();
        if (Sheet is null)
        {
            return NotFound();
        }

        if (await shopping.Buy(Sheet.List, Form, Plans[0].Habits.Metric, ModelState) is { } done)
        {
            Notice.Show(TempData, done);
            return Redirect(Sheet.Address);
        }

        Response.StatusCode = StatusCodes.Status400BadRequest;
        return Page();
    }

    private async Task OpenList()
    {
        Offered = [.. classes.All().Where(record => !record.IsClosed)];
        var plans = new List<ClassPlan>();
        foreach (var record in Offered.Where(record => Chosen.Length == 0 || Chosen.Contains(record.Id)))
        {
            if (await planning.Plan(record.Id) is { } plan)
            {
                plans.Add(plan);
            }
        }

        Plans = plans;
        if (plans.Count > 0 && !MixesCurrencies)
        {
            var address = "/shopping?" + string.Join('&', plans.Select(plan => $"class={plan.ClassId}"));
            Sheet = new(shopping.List(plans), address, HttpMethods.IsPost(Request.Method) ? Form : null);
        }
    }
}
