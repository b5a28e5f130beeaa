using KittingBee.Web.Packing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>Every mark of a class: who, when, what; each can be taken back. The reports of short pieces stand below the latest.</summary>
public sealed class HistoryModel(ClassDesk desk, MarkDesk marks, PackingStore store, ShortageStore shortages) : PackingPage(desk, marks, shortages)
{
    private const int OnePage = 100;

    public IReadOnlyList<KitMark> Shown { get; private set; } = [];

    /// <summary>All reports of short pieces, on the page of the latest marks; there are few of them.</summary>
    public IReadOnlyList<Shortage> Reports { get; private set; } = [];

    /// <summary>Where the next page of older marks starts; null at the end.</summary>
    public long? Older => Shown.Count == OnePage ? Shown[^1].Sequence : null;

    public async Task<IActionResult> OnGet(long classId, long? before)
    {
        if (!await OpenBags(classId))
        {
            return NotFound();
        }

        Shown = store.Latest(classId, before ?? long.MaxValue, OnePage);
        Reports = before is null ? ShortageBook.Trail(classId) : [];
        return Page();
    }
}
