using System.Globalization;

namespace KittingBee.Web.Documents.Drawing;

/// <summary>A rectangle in the units of a drawing.</summary>
internal readonly record struct DrawnBox(decimal X, decimal Y, decimal Width, decimal Height);

/// <summary>The labels of a recipe drawing, at one size. One that does not fit into its run is a number.</summary>
/// <param name="scale">How much larger than usual: a drawing that is shown small needs large words.</param>
internal sealed class RecipeLabels(decimal scale)
{
    private const decimal LetterWidth = 7.2m;
    private const decimal ChipHeight = 20m;
    private const decimal LineHeight = 19m;
    private const decimal Padding = 12m;
    private const int WordHeight = 12;

    private readonly SvgText svg = new();
    private readonly List<string> numbered = [];

    /// <summary>What the numbers stand for, from 1.</summary>
    public IReadOnlyList<string> Numbered => numbered;

    /// <summary>The labels as SVG.</summary>
    public string Svg => svg.ToString();

    /// <summary>How much room the numbers' texts take below the drawing.</summary>
    public decimal HeightBelow => numbered.Count * LineHeight;

    /// <summary>How wide the longest of them is; a narrow sheet's drawing is made wider for it.</summary>
    public decimal WidthBelow => numbered.Count == 0 ? 0 : numbered.Index().Max(line => Bare(Line(line)));

    /// <summary>The numbers' texts, one below the other from a height on.</summary>
    public string LinesBelow(decimal from)
    {
        var lines = new SvgText();
        foreach (var line in numbered.Index())
        {
            BlockDrawing.Words(lines, "0", SvgText.Number(from + ((line.Index + 1) * LineHeight) - 4), WordHeight, Line(line), "start");
        }

        return lines.ToString();
    }

    public void IfItFits(DrawnBox box, string words)
    {
        if (Fits(box, words))
        {
            Chip(box, words);
        }
    }

    public void Add(DrawnBox box, string words)
    {
        if (Fits(box, words))
        {
            Chip(box, words);
            return;
        }

        var number = numbered.IndexOf(words) + 1;
        if (number == 0)
        {
            numbered.Add(words);
            number = numbered.Count;
        }

        // Large numbers stand closer, so that those of two narrow runs do not hide each other.
        Chip(box, number.ToString(CultureInfo.InvariantCulture), scale > 1 ? 4 : Padding);
    }

    private static string Line((int Index, string Words) line) => string.Create(CultureInfo.InvariantCulture, $"{line.Index + 1}: {line.Words}");

    private static decimal Bare(string words) => LetterWidth * words.Length;

    private bool Fits(DrawnBox box, string words) => (Bare(words) + Padding) * scale <= box.Width && ChipHeight * scale <= box.Height;

    private void Chip(DrawnBox box, string words, decimal padding = Padding)
    {
        var (x, y) = (box.X + (box.Width / 2), box.Y + (box.Height / 2));
        var width = (Bare(words) + padding) * scale;
        svg.Empty(
            "rect",
            ("x", SvgText.Number(x - (width / 2))),
            ("y", SvgText.Number(y - (ChipHeight * scale / 2))),
            ("width", SvgText.Number(width)),
            ("height", SvgText.Number(ChipHeight * scale)),
            ("rx", SvgText.Number(10 * scale)),
            ("fill", "#FFFFFF"),
            ("stroke", BlockDrawing.Ink),
            ("stroke-width", SvgText.Number(0.8m * scale)));
        BlockDrawing.Words(svg, SvgText.Number(x), SvgText.Number(y + (4 * scale)), WordHeight * scale, words);
    }
}
