using System.Globalization;
using System.Xml.Linq;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Documents.Drawing;

namespace KittingBee.Web.Tests.Documents.Drawing;

/// <summary>The picture of a typed cut list, measured: what is drawn are the list's sizes, each once, at one scale, and nothing lies on anything.</summary>
public sealed class PiecesDrawingTests
{
    private const int Width = 150;

    [Theory]
    [InlineData("A 5 x 4", "B 5 x 4", "C 2 1/2 x 2 1/2", "C 8 1/2 x 2 1/2")]
    [InlineData("A 4 1/2 x 4 1/2")]
    [InlineData("A 40 x 2 1/2", "B 1 x 1")]
    [InlineData("A 2 x 30", "B 2 x 28", "C 3 x 25")]
    public void Drawing_OfAList_HasEachSizeOnceToScaleAndApart(params string[] pieces) => Measure(pieces);

    [Fact]
    public void Drawing_OfDrawnLists_HasEachSizeOnceToScaleAndApart()
    {
        var random = new Random(20261130);
        for (var round = 0; round < 200; round++)
        {
            Measure([.. Enumerable.Range(0, random.Next(1, 17)).Select(index => $"{(char)('A' + (index % 6))} {random.Next(1, 43)} x {random.Next(1, 25)}").Distinct()]);
        }
    }

    [Fact]
    public void Drawing_OfManySizes_ShowsTheLargestSixteen()
    {
        var drawn = Drawn([.. Enumerable.Range(1, 20).Select(size => $"A {size} x {size}")]);
        Assert.Equal(16, drawn.Count);
        Near(20m / 5m, drawn.Max(box => box.Width) / drawn.Min(box => box.Width), 0.01m);
    }

    [Fact]
    public void Drawing_OfNothing_IsNothing() => Assert.Equal("", PiecesDrawing.Svg(List([]), Width));

    private static void Measure(string[] pieces)
    {
        var drawn = Drawn(pieces);
        Assert.Equal(pieces.Length, drawn.Count);

        // One scale: every side of every box is as many times its side of cloth as the first is.
        var sizes = pieces.Select(Size).GroupBy(piece => piece.Letter).SelectMany(fabric => fabric).OrderByDescending(piece => piece.Height.Inches).ThenByDescending(piece => piece.Width.Inches).ToList();
        var scale = drawn.Zip(sizes).Max(pair => pair.First.Width / pair.Second.Width.Inches);
        Assert.All(drawn.Zip(sizes), pair =>
        {
            Near(pair.Second.Width.Inches * scale, pair.First.Width, 0.02m * (1 + pair.Second.Width.Inches));
            Near(pair.Second.Height.Inches * scale, pair.First.Height, 0.02m * (1 + pair.Second.Height.Inches));
            Assert.Equal(pair.Second.Letter, pair.First.Letter);
        });

        Assert.All(drawn, box => Assert.True(box is { Left: >= 0, Top: >= 0 } && box.Left + box.Width <= Width && box.Top + box.Height <= Width, $"{box} is not within {Width}."));
        foreach (var (one, index) in drawn.Select((box, index) => (box, index)))
        {
            Assert.DoesNotContain(drawn.Skip(index + 1), other =>
                one.Left < other.Left + other.Width && other.Left < one.Left + one.Width && one.Top < other.Top + other.Height && other.Top < one.Top + one.Height);
        }

        // In the middle: as much room on one side as on the other.
        Near(drawn.Min(box => box.Left), Width - drawn.Max(box => box.Left + box.Width), 0.05m);
        Near(drawn.Min(box => box.Top), Width - drawn.Max(box => box.Top + box.Height), 0.05m);
    }

    private static List<Box> Drawn(IReadOnlyList<string> pieces)
    {
        var svg = XElement.Parse(PiecesDrawing.Svg(List(pieces), Width));
        Assert.Equal("true", (string?)svg.Attribute("aria-hidden"));
        decimal Number(XElement element, string name) => decimal.Parse((string)element.Attribute(name)!, CultureInfo.InvariantCulture);
        var ids = svg.Descendants("pattern").Select(pattern => (string)pattern.Attribute("id")!).ToList();
        var boxes = svg.Elements("rect").Select(rect => (Fill: ((string)rect.Attribute("fill")!)[5..^1], Box: new Box("", Number(rect, "x"), Number(rect, "y"), Number(rect, "width"), Number(rect, "height")))).ToList();
        Assert.All(boxes, box => Assert.Contains(box.Fill, ids));
        return [.. boxes.Select(box => box.Box with { Letter = box.Fill[^1..] })];
    }

    private static CutList List(IReadOnlyList<string> pieces) => new(
        Length.Zero,
        Length.Zero,
        [.. pieces.Select(Size).GroupBy(piece => piece.Letter).Select(group => new FabricCutList(group.Key, "", [.. group.Select(piece => new KitPiece(piece.Width, piece.Height, 2, []))]))],
        [],
        []);

    private static (string Letter, Length Width, Length Height) Size(string piece)
    {
        var parts = piece[2..].Split(" x ");
        return (piece[..1], LengthText.Read(parts[0]).Value, LengthText.Read(parts[1]).Value);
    }

    private static void Near(decimal expected, decimal measured, decimal within) => Assert.InRange(measured, expected - within, expected + within);

    private sealed record Box(string Letter, decimal Left, decimal Top, decimal Width, decimal Height);
}
