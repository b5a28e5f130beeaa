using System.Collections.Frozen;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Documents.Drawing;

/// <summary>A rectangle of grid cells to point out.</summary>
public readonly record struct GridArea(int Column, int Row, int ColumnSpan, int RowSpan);

/// <summary>How a block is drawn.</summary>
public sealed record DrawingOptions
{
    /// <summary>Width of the drawing in CSS pixels; the height follows.</summary>
    public int Width { get; init; } = 240;

    /// <summary>Colour of each letter as #RRGGBB, for a colourway; other letters have their usual dye.</summary>
    public IReadOnlyDictionary<string, string> Colours { get; init; } = FrozenDictionary<string, string>.Empty;

    /// <summary>White ground and hatches in ink, for paper.</summary>
    public bool OnWhite { get; init; }

    /// <summary>Writes the letter into each patch that has room for it.</summary>
    public bool Letters { get; init; }

    /// <summary>Draws the arrows of the pressing plan.</summary>
    public bool Pressing { get; init; }

    /// <summary>Points out these cells and fades the others.</summary>
    public GridArea? Area { get; init; }

    /// <summary>Prints finished size and scale below the block, and sets its size on paper: 4 draws it at a quarter. Null for none.</summary>
    public int? Scale { get; init; }

    /// <summary>How sizes are written.</summary>
    public LengthStyle Sizes { get; init; } = LengthStyle.Eighths;

    /// <summary>Title for screen readers and tool tips; the block's name when not given.</summary>
    public string? Title { get; init; }

    /// <summary>Start of the ids inside; one that is not used on the page. Made up when not given.</summary>
    public string? Id { get; init; }

    internal string ColourOf(string letter) =>
        Colours.TryGetValue(letter, out var colour) && FabricLook.IsColour(colour) ? colour : FabricLook.Of(letter).Colour;
}
