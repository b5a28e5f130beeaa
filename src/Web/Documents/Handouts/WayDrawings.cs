using System.Globalization;
using KittingBee.Planning.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Drawing;
using KittingBee.Web.Showing;

namespace KittingBee.Web.Documents.Handouts;

/// <summary>The drawings of a handout in one colourway: drawn once, and given to each of its kits under ids of the kit's own.</summary>
/// <param name="Picture">The finished block or project, as SVG; null for a typed cut list.</param>
/// <param name="Pressing">The block with pressing arrows; null where there is no plan.</param>
/// <param name="Steps">One for each sewing step; empty texts where there is nothing to draw.</param>
/// <param name="Cutting">What the students cut before sewing; empty where everything lies in the bag as cut pieces.</param>
internal sealed record WayDrawings(string? Picture, string? Pressing, IReadOnlyList<string> Steps, IReadOnlyList<HandoutCutting> Cutting)
{
    private const int PictureWidth = 200;
    private const int StepWidth = 190;
    private const int CuttingWidth = 400;

    // Stands where a kit's id will, in ids and references to them. Nobody names a fabric so.
    private const string AnyKit = "kit0000any";

    /// <summary>Draws for a colourway.</summary>
    public static WayDrawings Of(ClassPlan plan, PlannedColourway? colourway, bool pressing)
    {
        var cutting = CuttingOf(plan, colourway);
        if (plan.Block is not { } block)
        {
            return new WayDrawings(null, null, [.. plan.CutList.Steps.Select(_ => "")], cutting);
        }

        var colours = plan.FabricsOf(colourway).ToDictionary(pair => pair.Key, pair => pair.Value.Colour);
        DrawingOptions Options(string id, int width) => new() { Id = AnyKit + id, Width = width, Sizes = plan.Habits.Style, Colours = colours };
        return new WayDrawings(
            plan.Project is { } whole ? ProjectDrawing.Svg(block, whole, Options("p", PictureWidth)) : BlockDrawing.Svg(block, Options("p", PictureWidth) with { Letters = true }),
            pressing ? BlockDrawing.Svg(block, Options("r", PictureWidth) with { OnWhite = true, Pressing = true, Title = Say("Which way to press") }) : null,
            [.. plan.CutList.Steps.Select(step => OfStep(plan, block, step, Options(string.Create(CultureInfo.InvariantCulture, $"s{step.Number}"), StepWidth) with { OnWhite = true }))],
            cutting);
    }

    private static IReadOnlyList<HandoutCutting> CuttingOf(ClassPlan plan, PlannedColourway? colourway)
    {
        var handedOut = plan.BagOf(colourway).HandedOut;
        return
        [
            .. plan.FabricsOf(colourway).GroupBy(pair => pair.Value.FabricId).Where(same => handedOut.ContainsKey(same.Key)).Select(same =>
            {
                var letters = same.Select(pair => pair.Key).Order(StringComparer.Ordinal).ToList();
                var fabric = same.First().Value;
                var thing = handedOut[same.Key];
                return new HandoutCutting(string.Join(", ", letters), fabric.Name, thing, HandedOutPicture.Draw(thing, plan.Habits, letters[0], fabric.Colour, CuttingWidth, $"{AnyKit}c{letters[0]}"));
            }),
        ];
    }

    /// <summary>Of a project's own steps the first shows the whole: that is where its blocks are laid out.</summary>
    private static string OfStep(ClassPlan plan, Block block, SewingStep step, DrawingOptions options) =>
        plan.Project is { } project && step == plan.CutList.Steps.FirstOrDefault(other => other.ColumnSpan == 0)
            ? ProjectDrawing.Svg(block, project, options with { Title = Say($"Step {step.Number}") })
            : StepDrawing.Svg(block, step, options);

    /// <summary>The same drawings for one kit of a page that holds several: no two have an id in common.</summary>
    public WayDrawings For(string kit) => new(
        Mine(Picture, kit),
        Mine(Pressing, kit),
        [.. Steps.Select(step => Mine(step, kit)!)],
        [.. Cutting.Select(item => item with { Recipes = [.. item.Recipes.Select(recipe => (Mine(recipe.Svg, kit)!, recipe.Repeat))] })]);

    private static string? Mine(string? drawing, string kit) => drawing?.Replace(AnyKit, kit, StringComparison.Ordinal);
}
