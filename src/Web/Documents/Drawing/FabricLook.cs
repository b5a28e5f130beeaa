using System.Globalization;

namespace KittingBee.Web.Documents.Drawing;

/// <summary>
/// How a fabric letter looks: a colour named after an old dye, and a hatch of its own, so that fabrics can be told apart
/// without colour.
/// </summary>
/// <param name="Dye">The dye's name.</param>
/// <param name="Colour">As #RRGGBB.</param>
public sealed record FabricLook(string Dye, string Colour)
{
    private static readonly FabricLook[] Dyes =
    [
        new("linen ground", "#F1E9DC"),
        new("indigo", "#35507F"),
        new("madder", "#B5543C"),
        new("weld", "#D6A441"),
        new("moss", "#5F7F52"),
        new("walnut", "#6F5440"),
        new("woad", "#8FB0C4"),
        new("cochineal", "#9C3A58"),
        new("lichen", "#B3AE78"),
        new("logwood", "#5B4A72"),
        new("safflower", "#E3A183"),
        new("oak gall", "#55534F"),
        new("birch", "#DCCB9E"),
    ];

    /// <summary>The usual look of a letter; letters past the last dye start over, with a coarser hatch.</summary>
    public static FabricLook Of(string letter) => Dyes[Place(letter) % Dyes.Length];

    /// <summary>How many different dyes there are.</summary>
    public static int Count => Dyes.Length;

    /// <summary>0 for A.</summary>
    internal static int Place(string letter) => letter is [>= 'A' and <= 'Z'] ? letter[0] - 'A' : 0;

    /// <summary>True for a text of the form #RRGGBB.</summary>
    public static bool IsColour(string? text) => text is { Length: 7 } && text[0] == '#' && text.Skip(1).All(char.IsAsciiHexDigit);

    /// <summary>Ink that shows on a colour: white on a dark one, near black on a light one.</summary>
    internal static string InkOn(string colour)
    {
        int Part(int start) => int.Parse(colour.AsSpan(start, 2), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture);

        // Weights of the eye for red, green and blue, in thousandths (sRGB luminance, without the gamma).
        var light = ((Part(1) * 213) + (Part(3) * 715) + (Part(5) * 72)) / 1000;
        return light < 140 ? "#FFFFFF" : "#3A2E1C";
    }
}
