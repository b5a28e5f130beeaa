using System.Collections.Frozen;
using System.Globalization;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Drawing;
using KittingBee.Web.Documents.Labels;

namespace KittingBee.Web.Documents.Handouts;

/// <summary>Makes handouts of one class; what is the same for all students is worked out once.</summary>
public sealed class HandoutMaker
{
    private const int PictureWidth = 200;
    private const int StepWidth = 190;
    private const decimal CodeRoom = 22m;

    private readonly ClassPlan plan;
    private readonly PressingPlan? pressing;
    private readonly int seams;
    private readonly IReadOnlyList<BlockMeasure> measures;

    private readonly Func<PlannedKit, string> bagAddress;

    /// <summary>Prepares what all handouts share.</summary>
    /// <param name="plan">The class.</param>
    /// <param name="bagAddress">The whole address of a kit's own page, for its QR code.</param>
    public HandoutMaker(ClassPlan plan, Func<PlannedKit, string> bagAddress)
    {
        this.plan = plan;
        this.bagAddress = bagAddress;
        var sound = plan.Block is { } block && BlockChecks.Check(block).Count == 0 ? block : null;
        pressing = sound is null ? null : PressingPlan.For(sound);
        seams = sound is null ? 0 : SeamsAcross.LeftToRight(sound);
        measures = seams == 0 ? [] : BlockMeasures.Of(plan.CutList.UnfinishedWidth, seams, plan.Habits.Metric);
    }

    /// <summary>Kits that a handout is made for: those of students, and those that will be claimed.</summary>
    public static IEnumerable<PlannedKit> KitsOf(ClassPlan plan) => plan.Kits.Where(kit => kit.Role is KitRole.Student or KitRole.Open);

    /// <summary>The handout of one kit.</summary>
    public Handout Of(PlannedKit kit)
    {
        var colourway = plan.ColourwayOf(kit);
        var fabrics = plan.FabricsOf(colourway);
        var colours = fabrics.ToFrozenDictionary(pair => pair.Key, pair => pair.Value.Colour);
        var roles = plan.Block?.Fabrics.ToDictionary(fabric => fabric.Letter, fabric => fabric.Name)
            ?? plan.CutList.Fabrics.ToDictionary(fabric => fabric.Letter, fabric => fabric.Name);
        var id = string.Create(CultureInfo.InvariantCulture, $"k{kit.Number}");
        return new Handout
        {
            Kit = kit,
            Colourway = colourway?.Name,
            Fabrics = [.. plan.CutList.Fabrics.Select(list => new HandoutFabric(
                list.Letter,
                roles.GetValueOrDefault(list.Letter, list.Name),
                fabrics.GetValueOrDefault(list.Letter)?.Name ?? "not chosen yet",
                colours.GetValueOrDefault(list.Letter, "#ffffff")))],
            Lines = plan.LinesOf(kit),
            Picture = plan.Block is null ? null : BlockDrawing.Svg(plan.Block, Options(id + "p", PictureWidth) with { Colours = colours, Letters = true }),
            Pressing = pressing is null || plan.Block is null
                ? null
                : BlockDrawing.Svg(plan.Block, Options(id + "r", PictureWidth) with { Colours = colours, OnWhite = true, Pressing = true, Title = "Which way to press" }),
            PressingLines = pressing?.Lines() ?? [],
            Steps = [.. plan.CutList.Steps.Select(step => new HandoutStep(step, plan.Block is null ? "" : StepDrawing.Svg(
                plan.Block, step, Options(string.Create(CultureInfo.InvariantCulture, $"{id}s{step.Number}"), StepWidth) with { Colours = colours, OnWhite = true })))],
            Code = QrSquare.Of(bagAddress(kit), CodeRoom),
            SeamTest = new SeamTest(3, plan.Habits.Metric ? Length.FromMillimetres(40) : Length.FromInches(1, 1, 2), plan.Rules.SeamAllowance),
            SeamsAcross = seams,
            Measures = measures,
        };
    }

    private DrawingOptions Options(string id, int width) => new() { Id = id, Width = width, Sizes = plan.Habits.Style };
}
