using System.Globalization;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Documents.Drawing;

/// <summary>A recipe drawing in the making: shapes first, labels over them.</summary>
internal sealed class RecipePage
{
    private const string Edge = "#8C8375";

    private readonly SvgText shapes = new();
    private readonly RecipeLabels labels = new(1);
    private readonly RecipeLabels? large;
    private readonly List<string> told = [];
    private readonly DrawingFrame frame;
    private readonly RecipeOptions options;
    private readonly bool lengthwise;
    private readonly string id;
    private readonly Length height;
    private readonly decimal drawnWidth;

    public RecipePage(DrawingFrame frame, RecipeOptions options, bool lengthwise, Length width, Length height)
    {
        this.frame = frame;
        this.options = options;
        this.lengthwise = lengthwise;
        this.height = height;
        id = options.Id ?? SvgText.NextId();
        drawnWidth = frame.Of(width);
        large = options.SmallestWidth is { } least && least < drawnWidth ? new(drawnWidth / least) : null;
        shapes.Empty(
            "rect",
            ("width", SvgText.Number(drawnWidth)),
            ("height", SvgText.Number(frame.Of(height))),
            ("fill", "#FFFFFF"),
            ("stroke", BlockDrawing.Ink),
            ("stroke-width", "1.2"));
    }

    /// <summary>Draws a strip that starts at a distance from the foot of the cloth.</summary>
    public void Strip(Strip strip, Length start, Length across)
    {
        var along = Length.Zero;
        foreach (var column in strip.Columns)
        {
            var first = along;
            for (var repeat = 0; repeat < column.Repeat; repeat++)
            {
                Column(column, strip.Height, along, start);
                along += column.Width;
            }

            Label(Box(first, start, along - first, strip.Height), Words(column));
        }

        LeftOver(along, start, across - along, strip.Height);
    }

    /// <summary>Cloth that stays: dashed, with its size where there is room.</summary>
    public void LeftOver(Length along, Length start, Length width, Length depth)
    {
        if (!width.IsPositive || !depth.IsPositive)
        {
            return;
        }

        var box = Box(along, start, width, depth);
        Rectangle(box, "#FAF7F1", Edge, "4 3");
        var words = lengthwise
            ? $"{Text(depth)} × {Text(width)}"
            : $"{Text(width)} × {Text(depth)}";
        labels.IfItFits(box, words);
        large?.IfItFits(box, words);
        told.Add(Say($"left over {words}"));
    }

    public RecipePicture Finish(string title)
    {
        var drawnHeight = frame.Of(height);
        var svg = new SvgText();
        BlockDrawing.OpenDrawing(svg, id, decimal.Max(drawnWidth, labels.WidthBelow), drawnHeight + labels.HeightBelow, null, title, string.Join("; ", told) + ".");
        svg.Open("defs");
        Hatches.Define(svg, id + "-hatch", options.Letter, options.ColourOrDye, onWhite: true);
        svg.Close("defs");

        // The parts are SVG already. Without a style sheet the large words stay away.
        var whole = labels.Svg + labels.LinesBelow(drawnHeight);
        return new(
            svg.ToString() + shapes + (large is null ? whole : $"<g class=\"asdrawn\">{whole}</g><g class=\"largewords\" display=\"none\">{large.Svg}</g>") + "</svg>",
            large?.Numbered ?? []);
    }

    private void Column(Column column, Length stripHeight, Length along, Length start)
    {
        var up = start;
        foreach (var stacked in column.Pieces)
        {
            for (var count = 0; count < stacked.Count; count++)
            {
                Rectangle(Box(along, up, stacked.Width, stacked.Height), $"url(#{id}-hatch)", BlockDrawing.Ink, null);
                if (stacked.Width < column.Width)
                {
                    Rectangle(Box(along + stacked.Width, up, column.Width - stacked.Width, stacked.Height), "#FAF7F1", Edge, "4 3");
                }

                up += stacked.Height;
            }
        }

        if (up < start + stripHeight)
        {
            Rectangle(Box(along, up, column.Width, start + stripHeight - up), "#FAF7F1", Edge, "4 3");
        }
    }

    private string Words(Column column) => string.Join(" + ", column.Pieces
        .GroupBy(piece => (piece.Width, piece.Height))
        .Select(group => Say($"{group.Sum(piece => piece.Count) * column.Repeat} of {Text(group.Key.Width)} × {Text(group.Key.Height)}")));

    /// <summary>Where a rectangle lies in the drawing. Strips stand on each other from the foot, or lie side by side from the left.</summary>
    private DrawnBox Box(Length along, Length start, Length width, Length depth) => lengthwise
        ? new(frame.Of(start), frame.Of(height - along - width), frame.Of(depth), frame.Of(width))
        : new(frame.Of(along), frame.Of(height - start - depth), frame.Of(width), frame.Of(depth));

    private void Rectangle(DrawnBox box, string fill, string stroke, string? dashes) => shapes.Empty(
        "rect",
        ("x", SvgText.Number(box.X)),
        ("y", SvgText.Number(box.Y)),
        ("width", SvgText.Number(box.Width)),
        ("height", SvgText.Number(box.Height)),
        ("fill", fill),
        ("stroke", stroke),
        ("stroke-width", "1"),
        ("stroke-dasharray", dashes));

    private void Label(DrawnBox box, string words)
    {
        told.Add(words);
        labels.Add(box, words);
        large?.Add(box, words);
    }

    private string Text(Length length) => LengthText.Write(length, options.Sizes);
}
