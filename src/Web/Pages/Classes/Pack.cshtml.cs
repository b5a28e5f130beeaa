using KittingBee.Web.Packing;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>The packing table: every kit with its lines.</summary>
public sealed class PackModel(ClassDesk desk, MarkDesk marks, PackingStore store, ShortageStore shortages) : PackingPage(desk, marks, shortages)
{
    private const int LatestShown = 12;

    /// <summary>Bags in one list: the browser passes over lists that are out of sight, which keeps a table of thousands light.</summary>
    public const int BagsTogether = 50;

    /// <summary>What a tick means now: <c>cut</c>, <c>bag</c>, <c>check</c> or <c>hand</c>.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Do { get; set; }

    /// <summary>Which bags are shown: <c>all</c>, <c>open</c> or <c>short</c>.</summary>
    [BindProperty(SupportsGet = true)]
    public string? Show { get; set; }

    /// <summary>The state that a tick gives.</summary>
    public string Gives => Do switch { "cut" => KitState.Cut, "check" => KitState.Checked, "hand" => KitState.HandedOver, _ => KitState.Bagged };

    /// <summary>True while lines are ticked, false while whole kits are.</summary>
    public bool ByLine => Gives is KitState.Cut or KitState.Bagged;

    public IReadOnlyList<KitMark> Latest { get; private set; } = [];

    public bool Shows(Bag bag) => Show switch
    {
        "short" => bag.IsShort,
        "open" => bag.Stage < BagStage.Checked,
        _ => true,
    };

    public string With(string? @do, string? show) => $"{PageAddresses.Class(Record.Id, "pack")}?do={@do ?? "bag"}&show={show ?? "all"}";

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await OpenBags(classId))
        {
            return NotFound();
        }

        Latest = store.Latest(classId, long.MaxValue, LatestShown);
        return Page();
    }

    public async Task<IActionResult> OnPostMark(long classId, string? mark)
    {
        if (!await OpenBags(classId))
        {
            return NotFound();
        }

        if (PackOrder.Read(mark) is not { } order)
        {
            return BadRequest();
        }

        await Carry(order);
        return Redirect(With(Do, Show) + (order.Where == PackOrder.Deal ? "" : $"#kit-{order.Where}"));
    }

    /// <summary>Takes back every mark from one sequence to another that was made in one go.</summary>
    public async Task<IActionResult> OnPostUndo(long classId, long from, long to, string? back)
    {
        if (!await OpenBags(classId))
        {
            return NotFound();
        }

        var taken = store.MarksAfter(classId, from - 1)
            .Where(mark => mark.Sequence <= to)
            .Select(mark => new NewMark(Guid.NewGuid(), mark.KitId, mark.Line, mark.State, Helper.ForMark(Request), Undoes: mark.Id))
            .ToList();
        var receipts = await Marks.Mark(classId, taken);
        var undone = receipts.Count(receipt => receipt.Outcome == MarkOutcome.Stored);
        Notice.Show(TempData, receipts.FirstOrDefault(receipt => receipt.Why is not null)?.Why is { } why ? Say(why)
            : undone == 0 ? Say("That was taken back already.") : Say($"Taken back: {Many(undone, "mark")}."));
        return Url.IsLocalUrl(back) ? LocalRedirect(back) : Redirect(With(Do, Show));
    }

    public IActionResult OnPostWho(long classId, string? who, string? back)
    {
        Helper.Remember(Response, who ?? "");
        return Url.IsLocalUrl(back) ? LocalRedirect(back) : Redirect(FormattableString.Invariant($"/classes/{classId}/pack"));
    }
}
