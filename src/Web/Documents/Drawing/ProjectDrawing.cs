using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Documents.Drawing;

/// <summary>Draws a whole project: blocks, what stands between them, borders; the binding as the outline.</summary>
public static class ProjectDrawing
{
    private const decimal BindingWidth = 3m;

    /// <summary>The drawing; an empty frame where block or project has problems.</summary>
    public static string Svg(Block block, Project project, DrawingOptions? options = null)
    {
        options ??= new();
        if (BlockChecks.Check(block).Count > 0 || ProjectChecks.Check(block, project).Count > 0)
        {
            return BlockDrawing.Svg(block with { Units = [] }, options with { Title = options.Title ?? block.Name });
        }

        var id = options.Id ?? SvgText.NextId();
        var layout = ProjectLayout.Of(block, project);
        var one = BlockPatches.Of(block);
        var frame = new DrawingFrame(layout.Width, options.Width);
        var height = frame.Of(layout.Height);
        var svg = new SvgText();
        BlockDrawing.OpenDrawing(svg, id, options.Width, height, null, options.Title ?? block.Name, Describe(layout, options));
        BlockDrawing.Define(svg, id, layout.Patches.Concat(one.Patches).Select(patch => patch.Letter).Concat(project.Binding is { } bound ? [bound.Letter] : []), options);
        svg.Open("defs").Open("g", ("id", id + "-block"), ("stroke", BlockDrawing.Ink), ("stroke-width", "0.5"), ("stroke-linejoin", "round"));
        foreach (var patch in one.Patches)
        {
            BlockDrawing.DrawPatch(svg, id, patch, frame);
        }

        svg.Close("g").Close("defs");
        svg.Open("g", ("stroke", BlockDrawing.Ink), ("stroke-width", "0.6"), ("stroke-linejoin", "round"));
        foreach (var patch in layout.Patches)
        {
            BlockDrawing.DrawPatch(svg, id, patch, frame);
        }

        svg.Close("g");
        var (halfWidth, halfHeight) = (frame.Of(one.Width) / 2, frame.Of(one.Height) / 2);
        foreach (var place in layout.Blocks)
        {
            var middle = $"{SvgText.Number(frame.Of(place.Middle.X))} {SvgText.Number(frame.Of(place.Middle.Y))}";
            svg.Empty(
                "use",
                ("href", $"#{id}-block"),
                ("transform", $"translate({middle}){(place.OnPoint ? " rotate(45)" : "")} translate({SvgText.Number(-halfWidth)} {SvgText.Number(-halfHeight)})"));
        }

        Edge(svg, id, project, options.Width, height);
        return svg.Close("svg").ToString();
    }

    private static void Edge(SvgText svg, string id, Project project, decimal width, decimal height)
    {
        var stroke = project.Binding is { } binding ? $"url(#{id}-{binding.Letter})" : BlockDrawing.Ink;
        svg.Empty(
            "rect",
            ("width", SvgText.Number(width)),
            ("height", SvgText.Number(height)),
            ("fill", "none"),
            ("stroke", stroke),
            ("stroke-width", project.Binding is null ? "1.6" : SvgText.Number(BindingWidth)));
    }

    private static string Describe(ProjectLayout layout, DrawingOptions options)
    {
        var (width, height) = (LengthText.Write(layout.Width, options.Sizes), LengthText.Write(layout.Height, options.Sizes));
        return layout.Blocks.Any(place => place.OnPoint)
            ? Say($"{width} by {height} finished, {Many(layout.Blocks.Count, "block")} on point.")
            : Say($"{width} by {height} finished, {Many(layout.Blocks.Count, "block")}.");
    }
}
