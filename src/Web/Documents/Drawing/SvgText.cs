using System.Globalization;
using System.Text;

namespace KittingBee.Web.Documents.Drawing;

/// <summary>
/// Builds SVG with presentation attributes only: the site allows no inline styles and no scripts. Every text and attribute is
/// escaped; numbers have at most two places.
/// </summary>
internal sealed class SvgText
{
    private static long drawings;

    private readonly StringBuilder text = new();

    /// <summary>A start for ids that no other drawing of this run has.</summary>
    public static string NextId() => "d" + Interlocked.Increment(ref drawings).ToString(CultureInfo.InvariantCulture);

    public static string Number(decimal value) => decimal.Round(value, 2, MidpointRounding.AwayFromZero).ToString("0.##", CultureInfo.InvariantCulture);

    public static string Escape(string value)
    {
        var escaped = new StringBuilder(value.Length);
        foreach (var character in value)
        {
            escaped.Append(character switch
            {
                '&' => "&amp;",
                '<' => "&lt;",
                '>' => "&gt;",
                '"' => "&quot;",
                '\'' => "&#39;",

                // Control characters are not allowed in XML, escaped or not.
                < ' ' and not '\t' and not '\n' => " ",
                '\uFFFE' or '\uFFFF' => " ",
                _ => character.ToString(),
            });
        }

        return escaped.ToString();
    }

    public SvgText Open(string element, params ReadOnlySpan<(string Name, string? Value)> attributes) => Tag(element, attributes, ">");

    public SvgText Empty(string element, params ReadOnlySpan<(string Name, string? Value)> attributes) => Tag(element, attributes, "/>");

    public SvgText Close(string element)
    {
        text.Append("</").Append(element).Append('>');
        return this;
    }

    public SvgText Words(string words)
    {
        text.Append(Escape(words));
        return this;
    }

    public override string ToString() => text.ToString();

    private SvgText Tag(string element, ReadOnlySpan<(string Name, string? Value)> attributes, string end)
    {
        text.Append('<').Append(element);
        foreach (var (name, value) in attributes)
        {
            if (value is not null)
            {
                text.Append(' ').Append(name).Append("=\"").Append(Escape(value)).Append('"');
            }
        }

        text.Append(end);
        return this;
    }
}
