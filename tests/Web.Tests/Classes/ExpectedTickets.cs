using System.Text.Json.Nodes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Classes;

/// <summary>What the cutting page should say of each fabric, strip by strip and in its drawings, by the answers of the call.</summary>
internal sealed class ExpectedTickets(ClassByApi asked, ClassRecord record)
{
    private readonly ClassHabits habits = asked.Plan.Habits;

    /// <summary>The shelf's pieces that the plan takes, or nothing.</summary>
    public static string FromShelf(CutByApi cut)
    {
        var sheets = cut.Answer["sheets"]!.AsArray().Select(sheet => sheet!["name"]!.GetValue<string>()).ToList();
        return sheets.Count == 0 ? "nothing" : string.Join("; ", sheets);
    }

    /// <summary>One fabric's ticket: the strips are the calls', and so is every size and number in the drawings.</summary>
    public void Ticket(PageNumbers page, CutByApi cut)
    {
        var fabric = cut.Fabric;
        var lines = CutOrder.Lines(fabric.Request, fabric.Plan!);
        Assert.Equal(Outline(cut.Answer), Outline(fabric.Plan!));
        page.Take($"{string.Join(", ", fabric.Letters)} {fabric.Name}, {habits.Show(fabric.Request.Stock.Bolt!.UsableWidth)} usable");
        if (cut.Bought.IsPositive)
        {
            page.Take($"Buy {Yards(cut.Bought)}.");
            page.TakeOneOf($"The strips take {habits.Show(cut.Used)}; no plan of this kind costs less.", $"The least that any strip plan can use is {habits.Show(cut.Floor)}; this one uses {habits.Show(cut.Used)}.");
        }

        if (cut.OneSize != cut.Bought)
        {
            page.Take($"Cutting each size from strips of its own would take {Yards(cut.OneSize)}, {Money(cut.OneSizeCost - cut.Cost)} more.");
        }

        page.Take($"{cut.Strokes} strokes, about {ExpectedPrices.MinutesOf(cut, record)} minutes, up to {fabric.Request.Layers} layers.");
        if (fabric.Format != FormatCodes.CutPieces)
        {
            page.Take("Goes into the bags as 10″ square");
        }

        if (lines.Any(line => line.Sheet is not null))
        {
            page.Take(FromShelf(cut));
        }

        foreach (var line in lines)
        {
            var strip = line.Strip;
            var pieces = strip.Columns.SelectMany(column => column.Pieces.Select(piece => (piece.Width, piece.Height, Count: (long)piece.Count * column.Repeat * line.Ticks)))
                .GroupBy(piece => (piece.Width, piece.Height)).Select(alike => $"{alike.Sum(piece => piece.Count)} of {habits.ShowPiece(alike.Key.Width, alike.Key.Height)}");
            page.Take($"Strip {habits.Show(strip.Height)} cut {line.Ticks}, {TicketWords.ShowLayers(line)} {string.Join(", ", pieces)}");
        }
    }

    /// <summary>A drawing names every piece that the call puts there and what is left over, each with its sizes, and nothing else.</summary>
    public void Drawings(PageNumbers page)
    {
        var labels = new HashSet<string>();
        foreach (var cut in asked.Cuts)
        {
            var stock = cut.Fabric.Request.Stock;
            var places = new[] { (Strips: cut.Answer["strips"]!.AsArray(), Across: stock.Bolt!.UsableWidth, Along: Length.Zero) }
                .Concat(cut.Answer["sheets"]!.AsArray().Select(sheet =>
                {
                    var one = stock.Sheets.Single(kind => kind.Name.ToString() == sheet!["name"]!.GetValue<string>());
                    return (sheet!["strips"]!.AsArray(), sheet["lengthwise"]!.GetValue<bool>() ? one.Length : one.Width, sheet["lengthwise"]!.GetValue<bool>() ? one.Width : one.Length);
                }));
            foreach (var (strips, across, along) in places)
            {
                var used = Length.Zero;
                foreach (var strip in strips)
                {
                    var (height, filled) = (In(strip!["height"]!), Length.Zero);
                    used += height * strip["repeat"]!.GetValue<int>();
                    foreach (var column in strip["columns"]!.AsArray())
                    {
                        var repeat = column!["repeat"]!.GetValue<int>();
                        filled += In(column["width"]!) * repeat;
                        labels.Add(string.Join(" + ", column["pieces"]!.AsArray().Select(piece => $"{piece!["count"]!.GetValue<int>() * repeat} of {habits.Show(In(piece["width"]!))} × {habits.Show(In(piece["height"]!))}")));
                    }

                    labels.Add($"{habits.Show(across - filled)} × {habits.Show(height)}");
                }

                labels.Add($"{habits.Show(across)} × {habits.Show(along - used)}");
            }
        }

        // Where a label has no room it is a number, which is told below the drawing.
        Assert.All(page.Drawn.Where(text => text.Any(char.IsDigit) && !int.TryParse(text, out _)), text => Assert.Contains(text.Contains(": ", StringComparison.Ordinal) ? text[(text.IndexOf(": ", StringComparison.Ordinal) + 2)..] : text, labels));
        Assert.Contains(page.Drawn, text => text.Any(char.IsDigit));
    }

    private static Length In(JsonNode inches) => Length.FromInches(inches.GetValue<decimal>());

    // Strips as the call writes them and as the class has them, in one form.
    private static IEnumerable<string> Outline(JsonNode answer) => new[] { answer["strips"] }.Concat(answer["sheets"]!.AsArray().Select(sheet => sheet!["strips"]))
        .SelectMany(strips => strips!.AsArray())
        .Select(strip => $"{strip!["height"]!.GetValue<decimal>():0.####} × {strip["repeat"]}: " + string.Join(", ", strip["columns"]!.AsArray().Select(column =>
            $"{column!["width"]!.GetValue<decimal>():0.####} × {column["repeat"]} of " + string.Join(" + ", column["pieces"]!.AsArray().Select(piece => $"{piece!["count"]} {piece["width"]!.GetValue<decimal>():0.####} × {piece["height"]!.GetValue<decimal>():0.####}")))));

    private static IEnumerable<string> Outline(CuttingPlan plan) => plan.Strips.Concat(plan.Sheets.SelectMany(sheet => sheet.Strips))
        .Select(strip => $"{strip.Height.Inches:0.####} × {strip.Repeat}: " + string.Join(", ", strip.Columns.Select(column =>
            $"{column.Width.Inches:0.####} × {column.Repeat} of " + string.Join(" + ", column.Pieces.Select(piece => $"{piece.Count} {piece.Width.Inches:0.####} × {piece.Height.Inches:0.####}")))));

    private string Yards(Length length) => habits.ShowYardage(length);

    private string Money(decimal amount) => MoneyText.Write(amount, record.Currency);
}
