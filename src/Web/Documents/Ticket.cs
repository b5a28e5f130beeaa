using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Documents;

/// <summary>Pieces of one size that a cut gives.</summary>
public sealed record PiecesOut(string Name, Length Width, Length Height, long Count);

/// <summary>One thing to do at the cutting table: strips of one recipe, and what comes out of them.</summary>
/// <param name="Line">Strip, boxes to tick, layers and sub-cuts.</param>
/// <param name="CutFrom">"bolt", or the sheet's name.</param>
/// <param name="Sheet">The sheet recipe, or null for the bolt.</param>
/// <param name="Across">How long each strip is: the usable width, or a sheet's side, as washed and trued.</param>
/// <param name="Out">What all the repeats give together.</param>
public sealed record TicketStep(TicketLine Line, string CutFrom, SheetRecipe? Sheet, Length Across, IReadOnlyList<PiecesOut> Out)
{
    /// <summary>True where the strips run along a sheet's length.</summary>
    public bool Lengthwise => Sheet?.Lengthwise == true;
}

/// <summary>The cutting sheet of one fabric.</summary>
public sealed record Ticket(PlannedFabric Fabric, CuttingPlan Plan, IReadOnlyList<TicketStep> Steps)
{
    /// <summary>The ticket of a planned fabric, in cutting order: sheets first, for they are on the shelf.</summary>
    public static Ticket Of(PlannedFabric fabric)
    {
        var plan = fabric.Plan ?? throw new ArgumentException("Only a planned fabric has a ticket.", nameof(fabric));
        return new Ticket(fabric, plan, [.. CutOrder.Lines(fabric.Request, plan).Select(Step)]);

        TicketStep Step(TicketLine line)
        {
            if (line.Sheet is not { } index)
            {
                return new(line, Say("bolt"), null, Buying.BoltWidth(fabric.Request.Stock), OutOf(line));
            }

            var sheet = plan.Sheets[index];
            var stock = fabric.Request.Stock.Sheets[sheet.Sheet];
            var across = sheet.Lengthwise ? Buying.SheetLength(fabric.Request.Stock, stock) : Buying.SheetWidth(fabric.Request.Stock, stock);
            return new(line, sheet.Repeat == 1 ? Say(sheet.Name) : Say($"{sheet.Name}, {sheet.Repeat} alike"), sheet, across, OutOf(line));
        }

        IReadOnlyList<PiecesOut> OutOf(TicketLine line) =>
        [
            .. line.Strip.Columns
                .SelectMany(column => column.Pieces.Select(piece => (piece.Piece, Count: piece.Count * column.Repeat * line.Ticks)))
                .GroupBy(piece => piece.Piece)
                .Select(group => (Asked: fabric.Request.Pieces[group.Key], Count: group.Sum(piece => piece.Count)))
                .Select(piece => new PiecesOut(piece.Asked.Name, piece.Asked.Width, piece.Asked.Height, piece.Count)),
        ];
    }
}
