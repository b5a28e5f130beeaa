using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Documents;

/// <summary>Pieces of one size that a cut gives.</summary>
public sealed record PiecesOut(string Name, Length Width, Length Height, int Count);

/// <summary>One thing to do at the cutting table: strips of one recipe, and what comes out of them.</summary>
/// <param name="Number">From 1, in cut order.</param>
/// <param name="CutFrom">Bolt, or the sheet's name.</param>
/// <param name="Lengthwise">True where the strips run along a sheet's length.</param>
/// <param name="Across">How long each strip is: the usable width, or a sheet's side, as washed and trued.</param>
/// <param name="Strip">The recipe.</param>
/// <param name="Repeats">Strips to cut by it, over all sheets.</param>
/// <param name="Out">What all the repeats give together.</param>
/// <param name="UsedSoFar">Bolt length gone when this step is done; null for sheets.</param>
public sealed record TicketStep(
    int Number, string CutFrom, bool Lengthwise, Length Across, Strip Strip, int Repeats, IReadOnlyList<PiecesOut> Out, Length? UsedSoFar);

/// <summary>The cutting sheet of one fabric.</summary>
public sealed record Ticket(PlannedFabric Fabric, CuttingPlan Plan, IReadOnlyList<TicketStep> Steps)
{
    /// <summary>The ticket of a planned fabric; sheets from the shelf come first, as the plan uses them first.</summary>
    public static Ticket Of(PlannedFabric fabric)
    {
        var plan = fabric.Plan ?? throw new ArgumentException("Only a planned fabric has a ticket.", nameof(fabric));
        var stock = fabric.Request.Stock;
        var steps = new List<TicketStep>();
        foreach (var sheet in plan.Sheets)
        {
            var cloth = stock.Sheets[sheet.Sheet];
            var across = sheet.Lengthwise ? Buying.SheetLength(stock, cloth) : Buying.SheetWidth(stock, cloth);
            var name = sheet.Repeat == 1 ? sheet.Name : $"{sheet.Name} ({sheet.Repeat} of them, alike)";
            steps.AddRange(sheet.Strips.Select(strip => Step(name, sheet.Lengthwise, across, strip, strip.Repeat * sheet.Repeat, null)));
        }

        var used = Length.Zero;
        foreach (var strip in plan.Strips)
        {
            used += strip.Height * strip.Repeat;
            steps.Add(Step("bolt", lengthwise: false, Buying.BoltWidth(stock), strip, strip.Repeat, used));
        }

        return new Ticket(fabric, plan, steps);

        TicketStep Step(string cutFrom, bool lengthwise, Length across, Strip strip, int repeats, Length? usedSoFar) =>
            new(steps.Count + 1, cutFrom, lengthwise, across, strip, repeats, OutOf(strip, repeats), usedSoFar);

        IReadOnlyList<PiecesOut> OutOf(Strip strip, int repeats) =>
        [
            .. strip.Columns
                .SelectMany(column => column.Pieces.Select(piece => (piece.Piece, Count: piece.Count * column.Repeat * repeats)))
                .GroupBy(piece => piece.Piece)
                .Select(group => new PiecesOut(
                    fabric.Request.Pieces[group.Key].Name, fabric.Request.Pieces[group.Key].Width, fabric.Request.Pieces[group.Key].Height, group.Sum(piece => piece.Count))),
        ];
    }
}

/// <summary>Tickets in words.</summary>
public static class TicketWords
{
    /// <summary>What a step gives: "28 of 5¼″ square, 4 of 2½″ × 4½″".</summary>
    public static string ShowOut(this ClassHabits habits, TicketStep step) =>
        string.Join(", ", step.Out.Select(piece => $"{piece.Count} of {habits.ShowPiece(piece.Width, piece.Height)}"));

    /// <summary>One line for each sub-cut of a strip, longest first as the plan gives them.</summary>
    public static IReadOnlyList<string> ShowSubCuts(this ClassHabits habits, Strip strip) => [.. strip.Columns.Select(column =>
    {
        var stack = string.Join(" + ", column.Pieces.Select(piece => piece.Count == 1
            ? habits.ShowPiece(piece.Width, piece.Height)
            : $"{piece.Count} of {habits.ShowPiece(piece.Width, piece.Height)}"));
        var whole = column.Pieces is [{ Count: 1 } only] && only.Width == column.Width && only.Height == strip.Height;
        var cuts = $"{column.Repeat} {(column.Repeat == 1 ? "sub-cut" : "sub-cuts")} {habits.Show(column.Width)} wide";
        return whole ? cuts : $"{cuts}, each into {stack}";
    })];
}
