using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>What a kit costs, what is asked for it, and how many students the class needs.</summary>
public sealed class PriceModel(ClassDesk desk, ClassStore classes, ClassPlanning planning, PlanBook plans, TimeProvider clock) : ClassPage(desk)
{
    public override string Stage => "Price";

    [BindProperty]
    public PriceForm Form { get; set; } = new();

    public ClassPrice Price { get; private set; } = null!;

    /// <summary>Asks for the class at other enrolments; each is planned, so it is done on request.</summary>
    [BindProperty(SupportsGet = true)]
    public bool Curve { get; set; }

    /// <summary>True for the curve alone as far as it is known, to be put into the page as it arrives.</summary>
    [BindProperty(SupportsGet = true)]
    public bool Part { get; set; }

    public ClassCurve? Points { get; private set; }

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        Form = PriceForm.From(Record);
        Price = ClassPricing.Of(Record, Plan);
        Points = Curve ? ClassCurve.Of(planning, plans, Materials, Plan, clock, Part ? ClassCurve.Part : ClassCurve.Patience) : null;
        return Curve && Part ? Partial("_Curve", this) : Page();
    }

    public async Task<IActionResult> OnPost(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        Price = ClassPricing.Of(Record, Plan);
        var reader = new FormReader(ModelState, nameof(Form), Record.Metric);
        var record = Form.Read(reader, Record);
        if (Record.IsClosed)
        {
            ModelState.AddModelError("", Say("This class is closed: open it again on its Settle page before changing its prices."));
        }

        if (!reader.IsGood)
        {
            return Page();
        }

        switch (await classes.Save(record))
        {
            case Saved.Gone:
                return NotFound();
            case Saved.Stale:
                var now = classes.Find(classId)!;
                this.SayStale(PriceForm.From(now), Form, () => Form.Version = now.Version);
                return Page();
            default:
                Notice.Say(TempData, "The prices are saved.");
                return RedirectToPage();
        }
    }

    public string Money(decimal amount) => MoneyText.Write(amount, Record.Currency);
}
