using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Html;

namespace KittingBee.Web.Showing;

/// <summary>The running stitch: progress as a dashed line whose stitches fill in.</summary>
public static class Stitches
{
    /// <summary>A line of stitches with its count as a name for screen readers.</summary>
    public static IHtmlContent Line(int done, int all, string what)
    {
        // Beyond this many, a stitch stands for several.
        var shown = Math.Clamp(all, 1, 60);
        var filled = all == 0 ? 0 : (int)((long)done * shown / all);
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"<svg class=\"stitches\" viewBox=\"0 0 {shown * 12} 12\" preserveAspectRatio=\"none\" role=\"img\" aria-label=\"{System.Net.WebUtility.HtmlEncode(Say($"{done} of {all} {what}"))}\">");
        Append(text, filled, shown);
        return new HtmlString(text.Append("</svg>").ToString());
    }

    /// <summary>Nine stitches over a stage of the job line; the stage's sentence says the same in words.</summary>
    public static IHtmlContent Stage(int done)
    {
        var text = new StringBuilder("<svg class=\"bar\" viewBox=\"0 0 108 12\" preserveAspectRatio=\"none\" aria-hidden=\"true\" focusable=\"false\">");
        Append(text, Math.Clamp(done, 0, 9), 9);
        return new HtmlString(text.Append("</svg>").ToString());
    }

    private static void Append(StringBuilder text, int filled, int shown)
    {
        for (var i = 0; i < shown; i++)
        {
            text.Append(CultureInfo.InvariantCulture, $"<line class=\"{(i < filled ? "sewn" : "open")}\" x1=\"{(i * 12) + 1}\" x2=\"{(i * 12) + 9}\" y1=\"6\" y2=\"6\"/>");
        }
    }
}
