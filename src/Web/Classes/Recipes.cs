using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Web.Documents;
using KittingBee.Web.Documents.Drawing;

namespace KittingBee.Web.Classes;

/// <summary>Draws a ticket's recipes, the same on the Cut page and on paper.</summary>
public static class Recipes
{
    private const int DrawingWidth = 700;

    // What a phone of 360 px leaves within its margins.
    private const int OnAPhone = 290;

    /// <summary>The strip of a step across the bolt, as SVG.</summary>
    public static string Draw(this ClassHabits habits, Ticket ticket, TicketStep step) => RecipeDrawing.Svg(step.Line.Strip, step.Across, Options(habits, ticket));

    /// <summary>A whole sheet, washed and trued, as SVG.</summary>
    public static string Draw(this ClassHabits habits, Ticket ticket, SheetRecipe recipe) => Sheet(ticket, recipe, Options(habits, ticket)).Svg;

    /// <summary>The drawing of a step for a screen of any width: the strip, or the whole sheet.</summary>
    public static RecipePicture OnScreen(this ClassHabits habits, Ticket ticket, TicketStep step, bool whole)
    {
        var options = Options(habits, ticket) with { SmallestWidth = OnAPhone };
        return whole ? Sheet(ticket, step.Sheet!, options) : RecipeDrawing.Picture(step.Line.Strip, step.Across, options);
    }

    private static RecipePicture Sheet(Ticket ticket, SheetRecipe recipe, RecipeOptions options)
    {
        var stock = ticket.Fabric.Request.Stock;
        var sheet = stock.Sheets[recipe.Sheet];
        var trued = sheet with { Width = Buying.SheetWidth(stock, sheet), Length = Buying.SheetLength(stock, sheet) };
        return RecipeDrawing.Picture(recipe, trued, options);
    }

    /// <summary>True where the sheet is drawn whole: a bolt of which little is cut would be all white, so its strips are drawn one by one.</summary>
    public static bool IsDrawnWhole(this Ticket ticket, TicketStep step)
    {
        if (step.Sheet is not { } recipe)
        {
            return false;
        }

        var stock = ticket.Fabric.Request.Stock;
        var sheet = stock.Sheets[recipe.Sheet];
        var depth = recipe.Lengthwise ? Buying.SheetWidth(stock, sheet) : Buying.SheetLength(stock, sheet);
        var used = recipe.Strips.Aggregate(Length.Zero, (sum, strip) => sum + (strip.Height * strip.Repeat));
        return used * 3 >= depth;
    }

    /// <summary>Minutes at the table at the class's own speed, rounded up.</summary>
    public static int Minutes(this Ticket ticket, int secondsPerStroke) =>
        (int)decimal.Ceiling(CuttingTime.Minutes(ticket.Fabric.Request, ticket.Plan, new CuttingRates(SecondsPerStroke: secondsPerStroke)));

    private static RecipeOptions Options(ClassHabits habits, Ticket ticket) => new()
    {
        Width = DrawingWidth, Letter = ticket.Fabric.Letters is [var first, ..] ? first : "A", Colour = ticket.Fabric.Colour, Sizes = habits.Style,
    };
}
