using System.Globalization;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Packing;

namespace KittingBee.Web.Settling;

/// <summary>One entry of a filled-in settle sheet, as it would be typed on the Settle page.</summary>
/// <param name="What"><c>bought</c>, <c>given</c> or <c>left</c>.</param>
/// <param name="FabricId">The fabric.</param>
/// <param name="Fabric">Its name.</param>
/// <param name="Length">Length with its unit.</param>
/// <param name="Width">Width of a remnant; empty for the whole width.</param>
/// <param name="Paid">Money paid.</param>
/// <param name="Note">What to remember of it.</param>
/// <param name="ToShelf">True to put what is left on the shelf, as is usual.</param>
public sealed record SheetEntry(string What, long FabricId, string Fabric, string Length, string Width = "", string Paid = "", string Note = "", bool ToShelf = true);

/// <summary>A tick of the Kits sheet that is not on the table yet.</summary>
/// <param name="Order">As a button of the table says it.</param>
/// <param name="Words">Kit and line in words.</param>
public sealed record SheetTick(string Order, string Words);

/// <summary>A line of the Kits sheet that is called short and not reported yet.</summary>
/// <param name="Order">The report's id, the kit's number in the database and the line's key.</param>
/// <param name="Count">How many pieces: as the sheet says beside the word, else all of the line, so that the kit surely comes out whole.</param>
/// <param name="Most">Pieces of the line in a kit.</param>
/// <param name="Words">Kit and line in words.</param>
public sealed record SheetShort(string Order, string Count, int Most, string Words)
{
    /// <summary>Reads an order; null for one that no page of ours has.</summary>
    public static (Guid Id, long KitId, string Line)? Read(string? order) =>
        (order ?? "").Split(' ') is [var id, var kit, var line] && Guid.TryParse(id, out var report) && long.TryParse(kit, NumberStyles.None, CultureInfo.InvariantCulture, out var kitId)
            ? (report, kitId, line)
            : null;
}

/// <summary>What a workbook that was filled in and sent back says that is not recorded yet.</summary>
public sealed record FilledInSheet(IReadOnlyList<SheetEntry> Entries, IReadOnlyList<SheetTick> Ticks, IReadOnlyList<SheetShort> Shorts, IReadOnlyList<string> Problems)
{
    public bool HasNews => Entries.Count + Ticks.Count + Shorts.Count > 0;

    /// <summary>A line of a kit in words.</summary>
    public static string InWords(PlannedKit kit, PackLine line, ClassHabits habits) => Say($"kit {kit.Number}, {kit.Name}: {line.Letter} {line.Size(habits)}");

    /// <summary>A remnant cell into its pieces: "21 x 13; 10 × 8" is two. Null where a part is no width and length.</summary>
    public static IReadOnlyList<(string Width, string Length)>? Remnants(string text, LengthUnit unit)
    {
        var pieces = new List<(string, string)>();
        foreach (var part in text.Split([';', '\n'], StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var sides = part.Split(['x', 'X', '×'], StringSplitOptions.TrimEntries);
            if (sides.Length != 2 || sides.Any(side => !LengthText.Read(side, unit).IsLength))
            {
                return null;
            }

            pieces.Add((sides[0], sides[1]));
        }

        return pieces;
    }
}
