using System.Collections.Frozen;
using KittingBee.Planning.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Drawing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Html;

namespace KittingBee.Web.Showing;

/// <summary>A block's drawing on a page.</summary>
public static class BlockPicture
{
    /// <summary>Draws the block, in a colourway's colours where they are given.</summary>
    public static IHtmlContent Draw(Block block, int width, IReadOnlyDictionary<string, string>? colours = null, bool pressing = false) =>
        new HtmlString(BlockDrawing.Svg(block, new DrawingOptions { Width = width, Colours = colours ?? FrozenDictionary<string, string>.Empty, Pressing = pressing }));

    /// <summary>Draws the pieces of a typed cut list, as SVG; empty where it does not read.</summary>
    public static string OfPieces(string? typedLines, bool metric, int width) =>
        ClassCutList.Of(null, typedLines, null, UsualRules.For(metric)).CutList is { } list ? PiecesDrawing.Svg(list, width) : "";

    /// <summary>Draws the project where there is one, else the block.</summary>
    public static IHtmlContent Draw(Block block, Project? project, int width, IReadOnlyDictionary<string, string>? colours = null) => project is null
        ? Draw(block, width, colours)
        : new HtmlString(ProjectDrawing.Svg(block, project, new DrawingOptions { Width = width, Colours = colours ?? FrozenDictionary<string, string>.Empty }));

    /// <summary>The colour of each letter in a colourway.</summary>
    public static IReadOnlyDictionary<string, string> Colours(PlannedColourway way, IReadOnlyDictionary<long, Fabric> fabrics) => way.FabricOfLetter
        .Where(pair => fabrics.ContainsKey(pair.Value))
        .ToDictionary(pair => pair.Key, pair => fabrics[pair.Value].Colour);
}
