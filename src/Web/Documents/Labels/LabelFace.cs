using System.Globalization;
using KittingBee.Web.Documents.Drawing;

namespace KittingBee.Web.Documents.Labels;

/// <summary>
/// Lays out one label in millimetres: number and name on top, colourway and code below them, then the fabrics in as many columns as it
/// takes, and the QR code at the right. Made for labels of 1 in and taller ones alike: everything grows with the height, up to a point.
/// </summary>
internal sealed class LabelFace(SvgText svg, Label label, decimal width, decimal height, Func<LabelFabric, string> hatch)
{
    private const decimal Padding = 1.8m;
    private const decimal SmallHeight = 25.4m;
    private const decimal LeastText = 1.9m;

    // From the code's quiet zone to the label's edge.
    private const decimal QrEdge = 0.5m;

    // A swatch is drawn in twelve units, so that two repeats of its hatch show.
    private const decimal SwatchUnits = 12m;

    private readonly decimal scale = Math.Clamp(height / SmallHeight, 0.75m, 1.6m);

    public void Draw()
    {
        var qr = QrSquare.Of(label.Address, Math.Min(height - 1, width * 0.3m)) ?? QrSquare.Of(label.Address, Math.Min(height - 1, width * 0.45m));
        var room = width - Padding - (qr is null ? Padding : qr.Side + QrEdge + 0.6m);
        var line = Head(room);
        line = Words(line, 2.3m, (label.Colourway ?? Say("no colourway yet"), Say($"code {label.Code}")), room);
        var titled = height >= 1.4m * SmallHeight;
        Fabrics(line + (0.8m * scale), height - Padding - (titled ? 3.4m * scale : 0), room);
        if (titled)
        {
            Text(Padding, height - Padding, 2.3m * scale, TextWidths.Shortened(label.Title, room / (2.3m * scale), bold: false), bold: false);
        }

        if (qr is not null)
        {
            svg.Open("g", ("transform", $"translate({Number(width - qr.Side - QrEdge)} {Number((height - qr.Side) / 2)})"));
            svg.Empty("rect", ("width", Number(qr.Side)), ("height", Number(qr.Side)), ("fill", "#fff"));
            svg.Empty("path", ("d", qr.Path), ("fill", "#000"));
            svg.Close("g");
        }
    }

    /// <summary>The number, and the name beside it in up to three lines, as large as it can be in the fewest.</summary>
    private decimal Head(decimal room)
    {
        var size = 6.4m * scale;
        var numberRoom = Math.Min(TextWidths.Of(label.Number, bold: true) * size, room);
        Text(Padding, Padding + (size * 0.78m), size, TextWidths.Shortened(label.Number, room / size, bold: true), bold: true);
        var (left, nameRoom) = (Padding + numberRoom + (1.2m * scale), room - numberRoom - (1.2m * scale));
        var (nameSize, lines) = Name(nameRoom);
        foreach (var (index, words) in lines.Index())
        {
            Text(left, Padding + (nameSize * (0.85m + (index * 1.12m))), nameSize, words, bold: true);
        }

        return Padding + Math.Max(size * 0.85m, nameSize * (0.3m + (lines.Count * 1.12m)));
    }

    private (decimal Size, IReadOnlyList<string> Lines) Name(decimal room)
    {
        foreach (var (most, size) in new[] { (1, 3.8m), (2, 3.2m), (2, 2.8m), (3, 2.4m) })
        {
            var lines = TextWidths.Lines(label.Name, room / (size * scale), most, bold: true);
            if (lines.Count > 0 && !lines[^1].EndsWith('…'))
            {
                return (size * scale, lines);
            }
        }

        var least = Math.Max(LeastText, 2.2m * scale);
        return (least, TextWidths.Lines(label.Name, room / least, 3, bold: true));
    }

    /// <summary>Two texts in one line, the first shortened so that the second always stands whole; in two lines where that leaves it nothing.</summary>
    private decimal Words(decimal line, decimal size, (string First, string Second) words, decimal room)
    {
        size = Math.Max(LeastText, size * scale);
        var kept = $" · {words.Second}";
        var first = TextWidths.Shortened(words.First, (room / size) - TextWidths.Of(kept, bold: false), bold: false);
        line += size * 1.15m;
        Text(Padding, line, size, TextWidths.Shortened(first.Length == 0 ? words.Second : first + kept, room / size, bold: false), bold: false);
        return line;
    }

    private void Fabrics(decimal top, decimal bottom, decimal room)
    {
        var rows = (int)((bottom - top) / (3.05m * scale));
        if (rows < 1 || label.Fabrics.Count == 0)
        {
            return;
        }

        // A few fabrics take the room of many.
        rows = Math.Min(rows, label.Fabrics.Count);
        var row = Math.Min((bottom - top) / rows, 4.2m * scale);

        // Fewest columns that hold all; more than a swatch and its letter a column must have room for.
        var side = row * 0.86m;
        var most = Math.Max(1, (int)(room / (side * 2.1m)));
        var columns = Math.Clamp((label.Fabrics.Count + rows - 1) / rows, 1, most);
        var each = room / columns;
        var size = Math.Max(LeastText, row * 0.7m);
        var shown = Math.Min(label.Fabrics.Count, rows * columns);
        for (var index = 0; index < shown; index++)
        {
            var fabric = label.Fabrics[index];
            var (x, y) = (Padding + (index / rows * each), top + (index % rows * row));
            if (index == shown - 1 && shown < label.Fabrics.Count)
            {
                Text(x, y + (side * 0.85m), size, TextWidths.Shortened($"+{label.Fabrics.Count - index}", each / size, bold: false), bold: false);
                break;
            }

            svg.Open("g", ("transform", $"translate({Number(x)} {Number(y)}) scale({Number(side / SwatchUnits)})"));
            svg.Empty("rect", ("width", Number(SwatchUnits)), ("height", Number(SwatchUnits)), ("fill", $"url(#{hatch(fabric)})"), ("stroke", BlockDrawing.Ink), ("stroke-width", "0.8"));
            svg.Close("g");
            Text(x + side + 0.8m, y + (side * 0.85m), size, TextWidths.Shortened($"{fabric.Letter} {fabric.Name}", (each - side - 1.4m) / size, bold: false), bold: false);
        }
    }

    private void Text(decimal x, decimal y, decimal size, string words, bool bold)
    {
        if (words.Length > 0)
        {
            svg.Open("text", ("x", Number(x)), ("y", Number(y)), ("font-size", Number(size)), ("font-weight", bold ? "700" : "400"), ("fill", BlockDrawing.Ink)).Words(words).Close("text");
        }
    }

    private static string Number(decimal value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
