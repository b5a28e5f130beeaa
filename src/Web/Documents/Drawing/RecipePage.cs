using System.Globalization;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Documents.Drawing;

/// <summary>A recipe drawing in the making: shapes first, labels over them.</summary>
internal sealed class RecipePage
{
    private const string Edge = "#8C8375";
    private const decimal LetterWidth = 7.2m;
    private const decimal ChipHeight = 20m;
    private const decimal LineHeight = 19m;

    private readonly SvgText shapes = new();
    private readonly SvgText labels = new();
    private readonly List<string> below = [];
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
        if (Fits(box, words))
        {
            Chip(box, words);
        }

        told.Add(Say($"left over {words}"));
    }

    public string Finish(string title)
    {
        var drawnHeight = frame.Of(height);
        var svg = new SvgText();
        BlockDrawing.OpenDrawing(svg, id, drawnWidth, drawnHeight + (below.Count * LineHeight), null, title, string.Join("; ", told) + ".");
        svg.Open("defs");
        Hatches.Define(svg, id + "-hatch", options.Letter, options.ColourOrDye, onWhite: true);
        svg.Close("defs");
        var lines = new SvgText();
        foreach (var (index, words) in below.Index())
        {
            BlockDrawing.Words(lines, "0", SvgText.Number(drawnHeight + ((index + 1) * LineHeight) - 4), 12, $"{index + 1}: {words}", "start");
        }

        // The parts are SVG already.
        return svg.ToString() + shapes + labels + lines + "</svg>";
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
        .Select(group => string.Create(
            CultureInfo.InvariantCulture,
            $"{group.Sum(piece => piece.Count) * column.Repeat} of {Text(group.Key.Width)} × {Text(group.Key.Height)}")));

    /// <summary>Where a rectangle lies in the drawing. Strips stand on each other from the foot, or lie side by side from the left.</summary>
    private (decimal X, decimal Y, decimal Width, decimal Height) Box(Length along, Length start, Length width, Length depth) => lengthwise
        ? (frame.Of(start), frame.Of(height - along - width), frame.Of(depth), frame.Of(width))
        : (frame.Of(along), frame.Of(height - start - depth), frame.Of(width), frame.Of(depth));

    private void Rectangle((decimal X, decimal Y, decimal Width, decimal Height) box, string fill, string stroke, string? dashes) => shapes.Empty(
        "rect",
        ("x", SvgText.Number(box.X)),
        ("y", SvgText.Number(box.Y)),
        ("width", SvgText.Number(box.Width)),
        ("height", SvgText.Number(box.Height)),
        ("fill", fill),
        ("stroke", stroke),
        ("stroke-width", "1"),
        ("stroke-dasharray", dashes));

    private void Label((decimal X, decimal Y, decimal Width, decimal Height) box, string words)
    {
        told.Add(words);
        if (Fits(box, words))
        {
            Chip(box, words);
            return;
        }

        var number = below.IndexOf(words) + 1;
        if (number == 0)
        {
            below.Add(words);
            number = below.Count;
        }

        Chip(box, number.ToString(CultureInfo.InvariantCulture));
    }

    private static decimal ChipWidth(string words) => (LetterWidth * words.Length) + 12;

    private static bool Fits((decimal X, decimal Y, decimal Width, decimal Height) box, string words) =>
        ChipWidth(words) <= box.Width && ChipHeight <= box.Height;

    private void Chip((decimal X, decimal Y, decimal Width, decimal Height) box, string words)
    {
        var (x, y) = (box.X + (box.Width / 2), box.Y + (box.Height / 2));
        var width = ChipWidth(words);
        labels.Empty(
            "rect",
            ("x", SvgText.Number(x - (width / 2))),
            ("y", SvgText.Number(y - (ChipHeight / 2))),
            ("width", SvgText.Number(width)),
            ("height", SvgText.Number(ChipHeight)),
            ("rx", "10"),
            ("fill", "#FFFFFF"),
            ("stroke", BlockDrawing.Ink),
            ("stroke-width", "0.8"));
        BlockDrawing.Words(labels, SvgText.Number(x), SvgText.Number(y + 4), 12, words);
    }

    private string Text(Length length) => LengthText.Write(length, options.Sizes);
}
