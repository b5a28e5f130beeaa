using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents;
using KittingBee.Web.Documents.Drawing;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Papers;

/// <summary>A cutting ticket for each fabric, each beginning on a page of its own.</summary>
public sealed class TicketsModel(ClassPlanning planning) : PaperPage(planning)
{
    private const int DrawingWidth = 680;
    private const int MostBoxes = 60;

    /// <summary>Only the fabric of this number; null for all.</summary>
    [BindProperty(SupportsGet = true)]
    public long? Fabric { get; set; }

    public IReadOnlyList<Ticket> Tickets { get; private set; } = [];

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        Tickets = [.. Plan.Fabrics.Where(fabric => fabric.Plan is not null && (Fabric is null || fabric.FabricId == Fabric)).Select(Ticket.Of)];
        return Fabric is not null && Tickets.Count == 0 ? NotFound() : Page();
    }

    public static decimal Minutes(Ticket ticket, int secondsPerStroke) =>
        CuttingTime.Minutes(ticket.Fabric.Request, ticket.Plan, new CuttingRates(SecondsPerStroke: secondsPerStroke));

    public static string Boxes(long count) => count <= MostBoxes ? new string('☐', (int)count) : $"{count} ×, keep a tally";

    public string Draw(Ticket ticket, TicketStep step) => RecipeDrawing.Svg(step.Line.Strip, step.Across, Options(ticket));

    public string Draw(Ticket ticket, SheetRecipe recipe)
    {
        var stock = ticket.Fabric.Request.Stock;
        var sheet = stock.Sheets[recipe.Sheet];
        var trued = sheet with { Width = Buying.SheetWidth(stock, sheet), Length = Buying.SheetLength(stock, sheet) };
        return RecipeDrawing.Svg(recipe, trued, Options(ticket));
    }

    private RecipeOptions Options(Ticket ticket) => new()
    {
        Width = DrawingWidth, Letter = ticket.Fabric.Letters is [var first, ..] ? first : "A", Colour = ticket.Fabric.Colour, Sizes = Habits.Style,
    };
}
