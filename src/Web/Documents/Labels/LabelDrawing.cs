using System.Globalization;
using KittingBee.Web.Documents.Drawing;

namespace KittingBee.Web.Documents.Labels;

/// <summary>Draws sheets of labels as SVG in millimetres, so that each label lies where the sheet's maker put it.</summary>
public static class LabelDrawing
{
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
            ("aria-label", Say($"Sheet {number}: labels for {string.Join("; ", labels.Select(item => Say($"kit {item.Label.Number}, {item.Label.Name}")))}")),
            ("font-family", "system-ui, 'Segoe UI', Roboto, 'Liberation Sans', sans-serif"));
        for (var place = 0; outlines && place < sheet.Count; place++)
        {
            var (x, y) = sheet.Place(place);
            svg.Empty("rect", ("x", Text(x.Millimetres)), ("y", Text(y.Millimetres)), ("width", Text(sheet.Width.Millimetres)), ("height", Text(sheet.Height.Millimetres)), ("rx", "1.5"), ("fill", "none"), ("stroke", "#23211E"), ("stroke-width", "0.2"));
        }

        svg.Open("defs");
        foreach (var fabric in labels.SelectMany(item => item.Label.Fabrics).DistinctBy(HatchOf))
        {
            Hatches.Define(svg, HatchOf(fabric), fabric.Letter, FabricLook.IsColour(fabric.Colour) ? fabric.Colour : FabricLook.Of(fabric.Letter).Colour, onWhite: false);
        }

        svg.Close("defs");
        foreach (var (label, place) in labels)
        {
            // Each label is a drawing within the drawing: nothing that a font makes wider than expected reaches its neighbour.
            var (x, y) = sheet.Place(place);
            var (labelWidth, labelHeight) = (sheet.Width.Millimetres, sheet.Height.Millimetres);
            svg.Open("svg", ("x", Text(x.Millimetres)), ("y", Text(y.Millimetres)), ("width", Text(labelWidth)), ("height", Text(labelHeight)));
            new LabelFace(svg, label, labelWidth, labelHeight, HatchOf).Draw();
            svg.Close("svg");
        }

        return svg.Close("svg").ToString();

        string HatchOf(LabelFabric fabric) => string.Create(CultureInfo.InvariantCulture, $"sheet{number}-{fabric.Letter}-{fabric.Colour.TrimStart('#')}");
    }

    private static string Text(decimal value) => value.ToString("0.###", CultureInfo.InvariantCulture);
}
