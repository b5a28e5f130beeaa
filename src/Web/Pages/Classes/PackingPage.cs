using KittingBee.Web.Packing;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Pages.Classes;

/// <summary>What the packing table and the page of one bag have in common. Call <see cref="OpenBags"/> first.</summary>
public abstract class PackingPage(ClassDesk desk, MarkDesk marks, ShortageStore shortages) : ClassPage(desk)
{
    protected MarkDesk Marks => marks;

    protected ShortageStore ShortageBook => shortages;

    public override string Stage => "Pack";

    public Bags Bags { get; private set; } = null!;

    /// <summary>All shortages, mended ones too.</summary>
    public IReadOnlyList<Shortage> Shortages { get; private set; } = [];

    /// <summary>The helper's name as kept on this device, or empty.</summary>
    public string Who => Helper.NameOf(Request);

    public IReadOnlyList<string> Here { get; private set; } = [];

    protected async Task<bool> OpenBags(long classId)
    {
        if (!await Open(classId))
        {
            return false;
        }

        var table = marks.Table(classId);
        Shortages = shortages.ForClass(classId);
        Bags = Bags.Of(Plan, table, Shortages);
        Here = table.Here();
        return true;
    }

    /// <summary>Makes the marks of a button and says so on the next page, with a way back.</summary>
    protected async Task Carry(PackOrder order)
    {
        var made = order.Marks(Bags, Helper.ForMark(Request));
        var receipts = await marks.Mark(Record.Id, made);
        if (receipts.FirstOrDefault(receipt => receipt.Outcome == MarkOutcome.Refused) is { } refused)
        {
            Notice.Show(TempData, Say(refused.Why!));
            return;
        }

        var stored = receipts.Where(receipt => receipt.Outcome == MarkOutcome.Stored).Select(receipt => receipt.Mark!).ToList();
        if (order.What == PackOrder.Undo || stored.Count == 0)
        {
            Notice.Show(TempData, stored.Count == 0 ? Say("That was marked already.") : Say("Taken back."));
            return;
        }

        Notice.Show(TempData, Words(order, stored), UndoAddress(stored[0].Sequence, stored[^1].Sequence));
    }

    /// <summary>Where a form posts to take back the marks from one sequence to another.</summary>
    public string UndoAddress(long from, long to) =>
        FormattableString.Invariant($"{PageAddresses.Class(Record.Id, "pack")}?handler=Undo&from={from}&to={to}&back={Uri.EscapeDataString(Request.Path)}");

    /// <summary>The name of a kit's line in words, also for a line that the cut list no longer has.</summary>
    public string LineWords(string key) => key == KitMark.WholeKit
        ? Say("whole kit")
        : Bags.Lines.FirstOrDefault(line => line.Key == key) is { } line ? $"{line.Letter} {line.Size(Habits)}" : Say("a line that the cut list no longer has");

    private string Words(PackOrder order, List<KitMark> stored)
    {
        var state = KitState.Words(order.What);
        if (order.Where == PackOrder.Deal)
        {
            var fabric = Plan.Fabrics.FirstOrDefault(fabric => order.Line == FormattableString.Invariant($"{fabric.FabricId}"));
            var bags = stored.Select(mark => mark.KitId).Distinct().Count();
            return Say($"{fabric?.Name ?? Say("The fabric")} {state} for {Many(bags, "bag")}.");
        }

        var bag = Bags.All.First(bag => bag.Kit.KitId == stored[0].KitId);
        return stored.Count == 1
            ? Say($"Kit {bag.Kit.Number}, {bag.Kit.Name}: {LineWords(stored[0].Line)} {state}.")
            : Say($"Kit {bag.Kit.Number}, {bag.Kit.Name}: {stored.Count} lines {state}.");
    }
}
