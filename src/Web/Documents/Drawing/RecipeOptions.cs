using KittingBee.Planning.Measures;

namespace KittingBee.Web.Documents.Drawing;

/// <summary>How a cutting recipe is drawn.</summary>
public sealed record RecipeOptions
{
    /// <summary>Width of the drawing in CSS pixels; the height follows from the cloth.</summary>
    public int Width { get; init; } = 760;

    /// <summary>
    /// The least width in CSS pixels at which a page shows the drawing, shrunk to fit: words that can still be read at that width lie
    /// in it too, for the page's style sheet to choose. Null for a drawing of one size, as on paper.
    /// </summary>
    public int? SmallestWidth { get; init; }

    /// <summary>Whose hatch.</summary>
    public string Letter { get; init; } = "A";

    /// <summary>The fabric's colour, #RRGGBB; the letter's usual dye when not given.</summary>
    public string? Colour { get; init; }

    /// <summary>How sizes are written.</summary>
    public LengthStyle Sizes { get; init; } = LengthStyle.Eighths;

    /// <summary>Title for screen readers.</summary>
    public string? Title { get; init; }

    /// <summary>Start of the ids inside; made up when not given.</summary>
    public string? Id { get; init; }

    internal string ColourOrDye => FabricLook.IsColour(Colour) ? Colour! : FabricLook.Of(Letter).Colour;
}
