using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>What a student buys who brings the fabric; a sheet to print or send.</summary>
public sealed class SupplyModel(ClassDesk desk) : ClassPage(desk)
{
    public override string Stage => "Print";

    /// <summary>True where students may bring prints with a direction, so that no piece may be turned.</summary>
    [BindProperty(SupportsGet = true)]
    public bool Directional { get; set; }

    public IReadOnlyList<SupplyLine> Lines { get; private set; } = [];

    /// <summary>The width that the list counts on: the narrow one is on the safe side.</summary>
    public Length Width { get; } = Length.FromInches(40);

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        var step = Record.Metric ? Length.FromMillimetres(100m) : Length.FromInches(4, 1, 2);
        var quarter = PrecutSizes.Usual(Width).Single(precut => precut.Format == FormatCodes.FatQuarter);
        Lines = SupplyList.For(Plan.CutList, new BoltStock(Width, step, step, 0m), quarter, Directional, Habits.Style);
        return Page();
    }

    /// <summary>Lines that somebody who is not on a size can answer: length, fat quarters, or why not.</summary>
    public string Bring(SupplyLine line) => (line.Length, line.FatQuarters) switch
    {
        ({ } length, { } quarters) => Say($"{Habits.ShowYardage(length)}, or {Many(quarters, "fat quarter")}"),
        ({ } length, null) => Habits.ShowYardage(length),
        (null, { } quarters) => Many(quarters, "fat quarter"),
        _ => "",
    };
}
