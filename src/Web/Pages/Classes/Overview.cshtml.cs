using KittingBee.Web.Classes;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>A class at a glance.</summary>
public sealed class OverviewModel(ClassDesk desk, PackingStore packing, ShortageStore shortages, RoomBook book) : ClassPage(desk)
{
    public override string Stage => "";

    public ClassPrice Price { get; private set; } = null!;

    public int Ready { get; private set; }

    /// <summary>Shortages not yet mended.</summary>
    public IReadOnlyList<Shortage> Shortages { get; private set; } = [];

    /// <summary>True where it can be said how many more kits fit.</summary>
    public bool CanTellRoom => !Record.IsClosed && RoomBook.CanTell(Plan);

    /// <summary>How many more kits fit; null while it is not known.</summary>
    public IReadOnlyList<WayRoom>? Room => book.Known(Materials, Plan);

    /// <summary>Students, spares and samples in words.</summary>
    public string Who
    {
        get
        {
            var parts = new List<string>();
            Add(KitRole.Student, count => Many(count, "student"));
            Add(KitRole.Open, count => Many(count, "kit"));
            Add(KitRole.Spare, count => Many(count, "spare"));
            Add(KitRole.Sample, count => Many(count, "sample"));
            return parts.Count == 0 ? Say("nobody yet") : string.Join(", ", parts);

            void Add(KitRole role, Func<int, string> say)
            {
                if (Plan.Kits.Count(kit => kit.Role == role) is > 0 and var count)
                {
                    parts.Add(say(count));
                }
            }
        }
    }

    /// <summary>The packs of a fabric that is bought precut.</summary>
    public string PrecutsOf(PlannedFabric fabric) => Habits.Buy(Plan.Shopping().Lines.Single(line => line.Fabric == fabric.FabricId));

    public int KitsIn(PlannedColourway way) => Plan.Kits.Count(kit => kit.ColourwayId == way.ColourwayId);

    /// <summary>The colour of each letter in a colourway.</summary>
    public IReadOnlyDictionary<string, string>? ColoursOf(PlannedColourway? way) => way is null ? null : BlockPicture.Colours(way, Materials.Fabrics);

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        Price = ClassPricing.Of(Record, Plan);
        Ready = KitMarks.Ready(KitMarks.Standing(packing.WholeKitMarks(classId)), Plan.Kits.Select(kit => kit.KitId));
        Shortages = [.. shortages.ForClass(classId).Where(shortage => shortage.MendedAt is null)];
        return Page();
    }
}
