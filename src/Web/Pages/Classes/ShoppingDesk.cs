using KittingBee.Planning.Measures;
using KittingBee.Planning.Pricing;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc.ModelBinding;

namespace KittingBee.Web.Pages.Classes;

/// <summary>What was really bought of a line, as typed.</summary>
public sealed class BoughtForm
{
    public long FabricId { get; set; }

    public string? Length { get; set; }

    public string? Paid { get; set; }
}

/// <summary>A list on a page: for one class, or for several.</summary>
/// <param name="List">The list.</param>
/// <param name="Address">Where its forms go, without the handler.</param>
/// <param name="Sent">The form that came back with messages, or null.</param>
public sealed record ShoppingView(SeasonList List, string Address, BoughtForm? Sent)
{
    /// <summary>The address of a form: ticks and purchases.</summary>
    public string Post(string handler, string more = "") => $"{Address}{(Address.Contains('?', StringComparison.Ordinal) ? "&" : "?")}handler={handler}{more}";
}

/// <summary>Ticks lines and takes down what was really bought, the same for one class and for a season.</summary>
public sealed class ShoppingDesk(SeasonShopping season, ShoppingStore shopping, SettlingStore settling, ClassPlanning planning)
{
    public SeasonList List(IReadOnlyList<ClassPlan> plans) => season.Of(plans);

    /// <summary>Puts a line into the basket, or out of it; false where the list has no such line.</summary>
    public async Task<bool> Tick(SeasonList list, long fabricId, bool ticked)
    {
        if (list.Rows.FirstOrDefault(row => row.Line.Fabric == fabricId) is not { } row)
        {
            return false;
        }

        await shopping.Tick([.. row.Parts.Select(part => new ShoppingTick { ClassId = part.ClassId, FabricId = fabricId, Amount = part.Amount })], ticked);
        return true;
    }

    /// <summary>
    /// Takes down a purchase, and ticks the line. For several classes each gets what it needs and the last one what is over; the
    /// money goes by length. Null with messages where something is wrong.
    /// </summary>
    public async Task<string?> Buy(SeasonList list, BoughtForm form, bool metric, ModelStateDictionary state)
    {
        var reader = new FormReader(state, "Form", metric);
        var length = reader.Yardage(nameof(form.Length), form.Length, "The length bought");
        var paid = reader.Money(nameof(form.Paid), form.Paid, "The money paid");
        var row = list.Rows.FirstOrDefault(row => row.Line.Fabric == form.FabricId);
        var needing = row?.Parts.Where(part => part.Line.Length.IsPositive).ToList() ?? [];
        if (row is null || needing.Count == 0)
        {
            reader.Wrong(nameof(form.Length), "This fabric is not on the list any more: load the page again.");
        }
        else if (reader.IsGood && needing.Count > 1 && length < row.Line.Length)
        {
            reader.Wrong(
                nameof(form.Length),
                $"The length bought is {form.Length?.Trim()}, less than the {needing.Count} classes need together ({list.Habits.ShowYardage(row.Line.Length)}): enter it on each class’s own list, so that it is clear who goes short.");
        }

        if (!reader.IsGood)
        {
            return null;
        }

        foreach (var part in row!.Parts)
        {
            // From the first purchase on, a class keeps to the cloth of its plan.
            await planning.SetAside(part.ClassId);
        }

        await settling.AddPurchases(Shared(needing, form.FabricId, length, paid));
        await Tick(list, form.FabricId, true);
        return $"{row.Line.Name}: {list.Habits.ShowYardage(length)} bought. It stands on the Settle page too, where it can be taken back.";
    }

    private static List<FabricPurchase> Shared(List<ShoppingPart> needing, long fabricId, Length length, decimal paid)
    {
        var lengths = needing.Count == 1 ? [length] : needing.ConvertAll(part => part.Line.Length);
        if (needing.Count > 1)
        {
            lengths[^1] += length - lengths.Aggregate(Length.Zero, (sum, one) => sum + one);
        }

        var money = Cents.Share(paid, lengths.ConvertAll(part => part.Yards));
        return [.. needing.Select((part, index) => new FabricPurchase { ClassId = part.ClassId, FabricId = fabricId, Length = lengths[index], Paid = money[index] })];
    }
}
