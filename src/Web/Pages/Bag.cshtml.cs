using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Packing;
using KittingBee.Web.Pages.Classes;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages;

/// <summary>One bag, as its label's code opens it on a phone.</summary>
public sealed class BagModel(ClassDesk desk, MarkDesk marks, KitStore kits, PackingStore store, ShortageStore shortages) : PackingPage(desk, marks, shortages)
{
    [BindProperty]
    public ShortageForm Form { get; set; } = new();

    public Bag Bag { get; private set; } = null!;

    public Bag? Next { get; private set; }

    public IReadOnlyList<KitMark> Trail { get; private set; } = [];

    /// <summary>What was said to be short in this kit, also what was taken back.</summary>
    public IReadOnlyList<Shortage> Reports { get; private set; } = [];

    /// <summary>The whole-kit state that comes next: checked, then handed over.</summary>
    public string Gives => Bag.Whole is null ? KitState.Checked : KitState.HandedOver;

    public async Task<IActionResult> OnGet(string code) => await OpenBag(code) ? Page() : Missing();

    public async Task<IActionResult> OnPostMark(string code, string? mark)
    {
        if (!await OpenBag(code))
        {
            return Missing();
        }

        if (PackOrder.Read(mark) is not { } order || order.Where == PackOrder.Deal)
        {
            return BadRequest();
        }

        await Carry(order);
        return Redirect($"/bag/{Bag.Kit.Code}");
    }

    public async Task<IActionResult> OnPostShort(string code)
    {
        if (!await OpenBag(code))
        {
            return Missing();
        }

        if (Form.Read(new FormReader(ModelState, nameof(Form), Record.Metric), Bag, Helper.ForMark(Request)) is not { } shortage)
        {
            Response.StatusCode = StatusCodes.Status400BadRequest;
            return Page();
        }

        if (await ShortageBook.Report(shortage with { ClassId = Record.Id }))
        {
            Marks.Table(Record.Id).TellOfShortages();
            Notice.Say(TempData, $"Noted for the re-cut ticket: {shortage.Count} of {shortage.Letter} {Habits.ShowPiece(shortage.Width, shortage.Height)}.", $"/bag/{Bag.Kit.Code}?handler=Withdraw&id={shortage.Id}");
        }
        else
        {
            Notice.Say(TempData, "The class is closed: open it again on its Settle page to go on packing.");
        }

        return Redirect($"/bag/{Bag.Kit.Code}");
    }

    public Task<IActionResult> OnPostWithdraw(string code, Guid id) => Change(code, () => ShortageBook.Withdraw(Record.Id, id), "The report is taken back.");

    public Task<IActionResult> OnPostMend(string code, Guid id, string? from) =>
        Change(code, () => ShortageBook.Mend(Record.Id, id, from == "spare" ? "spare" : "recut"), "The piece is in the bag.", $"?handler=Unmend&id={id}");

    public Task<IActionResult> OnPostUnmend(string code, Guid id) => Change(code, () => ShortageBook.Mend(Record.Id, id, ""), "The piece is on the re-cut ticket again.");

    private async Task<IActionResult> Change(string code, Func<Task<bool>> change, string text, string? undo = null)
    {
        if (!await OpenBag(code))
        {
            return Missing();
        }

        if (await change())
        {
            Marks.Table(Record.Id).TellOfShortages();
            Notice.Show(TempData, text, undo is null ? null : $"/bag/{Bag.Kit.Code}{undo}");
        }

        return Redirect($"/bag/{Bag.Kit.Code}");
    }

    private async Task<bool> OpenBag(string code)
    {
        if (kits.FindByCode(code) is not { } kit || !await OpenBags(kit.ClassId) || Bags.All.FirstOrDefault(bag => bag.Kit.KitId == kit.Id) is not { } bag)
        {
            return false;
        }

        Bag = bag;
        Next = Bags.NextToPack(bag.Kit.Number);
        Trail = store.MarksOfKit(Record.Id, kit.Id);
        Reports = [.. ShortageBook.Trail(Record.Id).Where(report => report.KitId == kit.Id)];
        return true;
    }

    private RedirectResult Missing() => Redirect($"/bag?code={Uri.EscapeDataString(RouteData.Values["code"]?.ToString() ?? "")}&missing=true");
}
