using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Backups;
using KittingBee.Web.Forms;
using KittingBee.Web.Packing;
using KittingBee.Web.Settling;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>Where the cloth went: bought, planned, re-cut, given out, left; then the class is closed.</summary>
[RequestSizeLimit((PhotoFile.LargestMegabytes + 1) * 1_000_000)]
public sealed class SettleModel(ClassDesk desk, MarkDesk marks, ShortageStore shortages, SettlingStore settling, ClosingStore closing, ClassPlanning planning, ClassStore classes, BackupBook backups, PhotoStore photos)
    : PackingPage(desk, marks, shortages)
{
    private static string Closed => Say("The class is closed: open it again to change its account.");

    public override string Stage => "Settle";

    [BindProperty]
    public ClothForm Form { get; set; } = new();

    /// <summary>Which form was sent, so that its messages stand beside it: <c>bought</c>, <c>given</c> or <c>left</c>.</summary>
    public string Sent { get; private set; } = "";

    public ClassSettlement Settlement { get; private set; } = null!;

    public ClothRecords Cloth { get; private set; } = null!;

    /// <summary>Leftovers that have a photographed note.</summary>
    public IReadOnlySet<long> Photographed { get; private set; } = new HashSet<long>();

    /// <summary>Worked out when asked for: it takes the engine a moment.</summary>
    public LeftoversMake? Makes { get; private set; }

    public IReadOnlyList<ClassTrace> Traces { get; private set; } = [];

    public async Task<IActionResult> OnGet(long classId, bool makes)
    {
        if (!await OpenAccount(classId))
        {
            return NotFound();
        }

        Makes = makes ? LeftoversMake.Of(Plan, Cloth.Leftovers) : null;
        return Page();
    }

    public Task<IActionResult> OnPostBought(long classId) => Add(classId, "bought", async reader =>
    {
        var bought = Form.Bought(reader, classId);
        if (!reader.IsGood)
        {
            return null;
        }

        // From the first purchase on, the class keeps to the cloth of its plan.
        await planning.SetAside(classId);
        return (Say($"{Name}: {Habits.ShowYardage(bought.Length)} bought."), Take("bought", await settling.AddPurchase(bought)));
    });

    public Task<IActionResult> OnPostGiven(long classId) => Add(classId, "given", async reader =>
    {
        var given = Form.Given(reader, classId);
        return reader.IsGood ? (Say($"{Name}: {Habits.ShowYardage(given.Length)} given out."), Take("given", await settling.AddGiven(given))) : null;
    });

    public Task<IActionResult> OnPostLeft(long classId, IFormFile? photo) => Add(classId, "left", async reader =>
    {
        var (note, fault) = photo is { Length: > 0 } ? await PhotoFile.Read(photo) : (null, "");
        if (fault.Length > 0)
        {
            reader.WrongAsSaid("Photo", fault);
        }

        var left = Form.Left(reader, classId, Materials.Fabrics[Form.FabricId].UsableWidth);
        var text = left.ToShelf
            ? Say($"{Name}: {Habits.Show(left.Width)} × {Habits.Show(left.Length)} left, on the shelf.")
            : Say($"{Name}: {Habits.Show(left.Width)} × {Habits.Show(left.Length)} left.");
        return reader.IsGood ? (text, Take("left", await settling.AddLeftover(left, note))) : null;
    });

    /// <summary>Takes an entry back, or with <paramref name="again"/> puts it back.</summary>
    public async Task<IActionResult> OnPostTake(long classId, string? what, long id, bool again)
    {
        if (!await OpenAccount(classId))
        {
            return NotFound();
        }

        var done = !Record.IsClosed && (what, again) switch
        {
            ("bought", false) => await settling.RemovePurchase(classId, id),
            ("bought", true) => await settling.PutBackPurchase(classId, id),
            ("given", _) => await settling.RemoveGiven(classId, id, !again),
            ("left", false) => await settling.RemoveLeftover(classId, id),
            ("left", true) => await settling.PutBackLeftover(classId, id),
            _ => false,
        };
        Notice.Show(
            TempData,
            done ? again ? Say("The entry is back.") : Say("The entry is taken back.") : Record.IsClosed ? Closed : Say("That entry is not there any more."),
            done && !again ? $"{Address}?handler=Take&what={what}&id={id}&again=true" : null);
        return Redirect(Address);
    }

    public async Task<IActionResult> OnPostTolerance(long classId, string? tolerance, long version)
    {
        if (!await OpenAccount(classId))
        {
            return NotFound();
        }

        Sent = "tolerance";
        var reader = new FormReader(ModelState, nameof(Form), Record.Metric);
        var percent = reader.Percent("Tolerance", tolerance, "The tolerance");
        if (!reader.IsGood)
        {
            Response.StatusCode = StatusCodes.Status400BadRequest;
            return Page();
        }

        var saved = await classes.Save(Record with { TolerancePercent = percent, Version = version });
        Notice.Show(TempData, saved == Saved.Done ? Say("The tolerance is saved.") : Record.IsClosed ? Closed : Say($"Somebody changed the class in the meantime: the tolerance is {Record.TolerancePercent:0.##} % now, and you typed {percent:0.##} %. Set it again if yours is right."));
        return Redirect(Address);
    }

    public async Task<IActionResult> OnPostClose(long classId, bool forget, long version)
    {
        if (!await OpenAccount(classId))
        {
            return NotFound();
        }

        if (forget)
        {
            backups.Make(BackupReason.BeforeForgetting);
        }

        var saved = await closing.Close(classId, version, StoredJson.Write(Settlement), Settlement.Taken, forget);
        if (saved == Saved.Done && forget)
        {
            Marks.Forget(classId);
        }

        Notice.Show(TempData, saved == Saved.Done
            ? forget ? Say("The class is closed and its figures stand. Names, contacts and notes are forgotten.") : Say("The class is closed and its figures stand.")
            : Say("Somebody changed the class in the meantime. Look again, then close it."));
        return Redirect(Address);
    }

    public async Task<IActionResult> OnPostReopen(long classId, long version)
    {
        if (!await OpenAccount(classId))
        {
            return NotFound();
        }

        var saved = await closing.OpenAgain(classId, version, Settlement.Taken);
        Notice.Show(TempData, saved == Saved.Done ? Say("The class is open again. That it was closed stays on record below.") : Say("Somebody changed the class in the meantime."));
        return Redirect(Address);
    }

    private string Name => Materials.Fabrics[Form.FabricId].Name;

    private string Address => PageAddresses.Class(Record.Id, "settle");

    private static string Take(string what, long id) => FormattableString.Invariant($"?handler=Take&what={what}&id={id}");

    private async Task<IActionResult> Add(long classId, string which, Func<FormReader, Task<(string Text, string Undo)?>> add)
    {
        if (!await OpenAccount(classId))
        {
            return NotFound();
        }

        Sent = which;
        if (Record.IsClosed)
        {
            Notice.Show(TempData, Closed);
            return Redirect(Address);
        }

        if (Plan.Fabrics.All(fabric => fabric.FabricId != Form.FabricId))
        {
            ModelState.AddModelError("Form.FabricId", Say("Which fabric is it? Choose one of the class’s."));
        }
        else if (await add(new FormReader(ModelState, nameof(Form), Record.Metric)) is { } done)
        {
            Notice.Show(TempData, done.Text, Address + done.Undo);
            return Redirect(Address);
        }

        Response.StatusCode = StatusCodes.Status400BadRequest;
        return Page();
    }

    private async Task<bool> OpenAccount(long classId)
    {
        if (!await OpenBags(classId))
        {
            return false;
        }

        Cloth = new ClothRecords(settling.Purchases(classId), settling.Given(classId), settling.Leftovers(classId), Shortages);
        Settlement = Record is { IsClosed: true, FrozenJson: { } frozen }
            ? StoredJson.Read<ClassSettlement>(frozen)
            : SettlementBook.Of(Materials, Plan, Bags, Cloth);
        Traces = closing.Traces(classId);
        Photographed = photos.Having(classId);
        return true;
    }
}
