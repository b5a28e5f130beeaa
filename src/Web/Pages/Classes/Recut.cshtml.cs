using KittingBee.Web.Packing;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>What bags lack, and how to cut it again.</summary>
public sealed class RecutModel(ClassDesk desk, MarkDesk marks, ShortageStore shortages, SettlingStore settling) : PackingPage(desk, marks, shortages)
{
    public IReadOnlyList<RecutFabric> Fabrics { get; private set; } = [];

    public IReadOnlyDictionary<long, Bag> BagOf { get; private set; } = new Dictionary<long, Bag>();

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await OpenBags(classId))
        {
            return NotFound();
        }

        Fabrics = Recut.Of(Materials, Plan, new ClothOnTable(settling.Purchases(classId), settling.Leftovers(classId)), Shortages);
        BagOf = Bags.All.ToDictionary(bag => bag.Kit.KitId);
        return Page();
    }

    /// <summary>The piece is cut again, or was taken from the spares, and is in its bag.</summary>
    public async Task<IActionResult> OnPostMend(long classId, Guid id, string? from)
    {
        if (!await OpenBags(classId))
        {
            return NotFound();
        }

        if (await ShortageBook.Mend(classId, id, from == "spare" ? "spare" : "recut"))
        {
            Marks.Table(classId).TellOfShortages();
            Notice.Say(TempData, "The piece is in the bag.", $"{PageAddresses.Class(classId, "recut")}?handler=Unmend&id={id}");
        }

        return Redirect(PageAddresses.Class(classId, "recut"));
    }

    public async Task<IActionResult> OnPostUnmend(long classId, Guid id)
    {
        if (await ShortageBook.Mend(classId, id, ""))
        {
            Marks.Table(classId).TellOfShortages();
            Notice.Say(TempData, "The piece is on the re-cut ticket again.");
        }

        return Redirect(PageAddresses.Class(classId, "recut"));
    }
}
