using System.Globalization;
using KittingBee.Web.Documents.Drawing;

namespace KittingBee.Web.Documents.Labels;

/// <summary>What stands on one bag's label.</summary>
/// <param name="Number">The kit's number, large.</param>
/// <param name="Name">Whose it is.</param>
/// <param name="Lines">Colourway, fabrics, code; as many as there is room for.</param>
/// <param name="Address">What the QR code says.</param>
public sealed record Label(string Number, string Name, IReadOnlyList<string> Lines, string Address);

/// <summary>Draws sheets of labels as SVG in millimetres, so that each label lies where the sheet's maker put it.</summary>
public static class LabelDrawing
{
    // Average width of a letter as a share of its height, on the safe side for wide system fonts; bold letters are wider.
    private const decimal LetterWidth = 0.58m;
    private const decimal BoldLetterWidth = 0.68m;
    private const decimal Padding = 2.2m;

    // From the code's quiet zone to the label's edge.
    private const decimal QrEdge = 0.5m;

    /// <summary>All sheets; the first label goes to place <paramref name="first"/>, counted from 1. Outlines on a test sheet.</summary>
    public static IReadOnlyList<string> Sheets(IReadOnlyList<Label> labels, LabelSheet sheet, int first, bool outlines)
    {
        var places = labels.Select((label, index) => (Label: label, Place: first - 1 + index)).GroupBy(item => item.Place / sheet.Count);
        return [.. places.Select((page, number) => Sheet([.. page.Select(item => (item.Label, item.Place % sheet.Count))], sheet, outlines, number + 1))];
    }

    private static string Sheet(IReadOnlyList<(Label Label, int Place)> labels, LabelSheet sheet, bool outlines, int number)
    {
        var svg = new SvgText();
        var (width, height) = (sheet.PaperWidth.Millimetres, sheet.PaperHeight.Millimetres);
        svg.Open(
            "svg",
            ("xmlns", "http://www.w3.org/2000/svg"),
            ("width", Text(width) + "mm"),
            ("height", Text(height) + "mm"),
            ("viewBox", $"0 0 {Text(width)} {Text(height)}"),
            ("role", "img"),
            ("aria-label", string.Create(CultureInfo.InvariantCulture, $"Sheet {number}: labels for {string.Join("; ", labels.Select(item => $"kit {item.Label.Number}, {item.Label.Name}"))}")),
            ("font-family", "system-ui, 'Segoe UI', Roboto, 'Liberation Sans', sans-serif"));
        for (var place = 0; outlines && place < sheet.Count; place++)
        {
            var (x, y) = sheet.Place(place);
            svg.Empty("rect", ("x", Text(x.Millimetres)), ("y", Text(y.Millimetres)), ("width", Text(sheet.Width.Millimetres)), ("height", Text(sheet.Height.Millimetres)), ("rx", "1.5"), ("fill", "none"), ("stroke", "#23211E"), ("stroke-width", "0.2"));
        }

        foreach (var (label, place) in labels)
        {
            var (x, y) = sheet.Place(place);
            Draw(svg, label, x.Millimetres, y.Millimetres, sheet.Width.Millimetres, sheet.Height.Millimetres);
        }

        return svg.Close("svg").ToString();
    }

    private static void Draw(SvgText svg, Label label, decimal x, decimal y, decimal width, decimal height)
    {
        var textWidth = width - (2 * Padding);
        var qr = QrSquare.Of(label.Address, Math.Min(height - 1, width * 0.45m));
        if (qr is not null)
        {
            textWidth = width - qr.Side - QrEdge - (2 * Padding);
        }

        var numberHeight = Math.Min(9m, height * 0.3m);
        var nameHeight = Math.Min(5m, height * 0.17m);
        var lineHeight = Math.Min(3.4m, height * 0.115m);
        var bottom = y + height - 1.2m;
        var line = y + Padding + (numberHeight * 0.75m);
        Words(svg, x + Padding, line, numberHeight, textWidth, label.Number, bold: true);
        line += nameHeight * 1.25m;
        Words(svg, x + Padding, line, Math.Max(2.6m, Math.Min(nameHeight, textWidth / Math.Max(1, label.Name.Length) / BoldLetterWidth)), textWidth, label.Name, bold: true);
        foreach (var words in label.Lines)
        {
            line += lineHeight * 1.3m;
            if (line > bottom)
            {
                break;
            }

            Words(svg, x + Padding, line, lineHeight, textWidth, words, bold: false);
        }

        // Last and on white of its own: letters are wider or narrower than the average, and none may spoil the code.
        if (qr is not null)
        {
            var (left, top) = (x + width - qr.Side - QrEdge, y + ((height - qr.Side) / 2));
            svg.Empty("rect", ("x", Text(left)), ("y", Text(top)), ("width", Text(qr.Side)), ("height", Text(qr.Side)), ("fill", "#fff"));
            svg.Empty("path", ("d", qr.Path), ("fill", "#000"), ("transform", $"translate({Text(left)} {Text(top)})"));
        }
    }

    private static void Words(SvgText svg, decimal x, decimal y, decimal size, decimal room, string words, bool bold) => svg
        .Open("text", ("x", Text(x)), ("y", Text(y)), ("font-size", Text(size)), ("font-weight", bold ? "700" : "400"), ("fill", "#23211E"))
        .Words(Shortened(words, (int)(room / (size * (bold ? BoldLetterWidth : LetterWidth)))))
        .Close("text");

    private static string Shortened(string words, int most)
    {
        var shown = new StringInfo(words);
        return shown.LengthInTextElements <= most ? words : most < 2 ? "" : shown.SubstringByTextElements(0, most - 1) + "…";
    }

    private static string Text(decimal value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
