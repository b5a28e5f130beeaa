using KittingBee.Planning.Measures;
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

    /// <summary>Packs of precuts, in place of a length.</summary>
    public string? Packs { get; set; }

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
public sealed class ShoppingDesk(SeasonShopping season, ShoppingStore shopping, SettlingStore settling, ClassPlanning planning, FabricStore fabrics)
{
    private const int MostPacks = 10_000;

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
    /// Takes down what was really bought, and ticks the line; too little is taken down too, and said. For several classes each
    /// gets what it needs in the order of the list, the last one what is over; the money goes by length. Null with messages where
    /// something is wrong.
    /// </summary>
    public async Task<string?> Buy(SeasonList list, BoughtForm form, bool metric, ModelStateDictionary state)
    {
        var reader = new FormReader(state, "Form", metric);
        var row = list.Rows.FirstOrDefault(row => row.Line.Fabric == form.FabricId);
        var packs = row?.Packs;
        var field = packs is null ? nameof(form.Length) : nameof(form.Packs);
        var length = packs is null ? reader.Yardage(nameof(form.Length), form.Length, "The length bought") : Length.Zero;
        var count = packs is null ? 0 : reader.Whole(nameof(form.Packs), form.Packs, "Packs bought", 1, MostPacks) * packs.PackSize;
        var paid = reader.Money(nameof(form.Paid), form.Paid, "The money paid");
        var needing = row?.Parts.Where(part => packs is null ? part.Line.Length.IsPositive : part.Line.Sheets.Count > 0).ToList() ?? [];
        if (row is null || needing.Count == 0)
        {
            reader.Wrong(field, "This fabric is not on the list any more: load the page again.");
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

        var shares = packs is null
            ? SharedPurchase.OfLength(needing, length, paid)
            : SharedPurchase.OfPrecuts(needing, count, row.Fabric, fabrics.Find(form.FabricId)!.UsableWidth, paid);
        await settling.AddPurchases(shares);
        await Tick(list, form.FabricId, true);
        var what = packs is null ? list.Habits.ShowYardage(length) : $"{count} × {packs.Name}";
        var needed = packs is null ? row.Bought + length < row.Line.Length : count + row.Count < packs.Used;
        var without = row.Parts.Where(part => needing.Contains(part) && shares.All(share => share.ClassId != part.ClassId)).Select(part => part.Title).ToList();
        return string.Join(' ', new[]
        {
            Say($"{row.Line.Name}: {what} bought."),
            needed ? Say("That is less than the list asks for.") : "",
            without.Count > 0 ? Say($"Nothing of it is left for {string.Join(", ", without)}.") : "",
            Say("It stands on the Settle page too, where it can be taken back."),
        }.Where(part => part.Length > 0));
    }
}
