using KittingBee.Web.Documents.Drawing;
using Microsoft.AspNetCore.Html;

namespace KittingBee.Web.Showing;

/// <summary>A fabric's dot: its colour, and the hatch of its letter so that it is told apart without colour.</summary>
public static class Swatch
{
    /// <summary>The dot as SVG, for decoration beside the fabric's name.</summary>
    /// <param name="colour"><c>#rrggbb</c>.</param>
    /// <param name="letter">The letter whose hatch it bears, or null for a plain dot.</param>
    /// <param name="size">Diameter in pixels.</param>
    public static IHtmlContent Dot(string colour, string? letter = null, int size = 22)
    {
        var id = SvgText.NextId();
        var pixels = SvgText.Number(size);
        var svg = new SvgText();
        svg.Open("svg", ("class", "dot"), ("width", pixels), ("height", pixels), ("viewBox", "0 0 22 22"), ("aria-hidden", "true"), ("focusable", "false"));
        svg.Open("defs");
        Hatches.Define(svg, id, letter ?? "A", colour, onWhite: false);
        svg.Close("defs");
        svg.Empty("circle", ("cx", "11"), ("cy", "11"), ("r", "10"), ("fill", $"url(#{id})"), ("stroke", BlockDrawing.Ink));
        return new HtmlString(svg.Close("svg").ToString());
    }
}
