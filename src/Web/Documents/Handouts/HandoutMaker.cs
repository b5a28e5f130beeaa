using System.Globalization;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Labels;

namespace KittingBee.Web.Documents.Handouts;

/// <summary>Makes handouts of one class; what is the same for all students is worked out once.</summary>
public sealed class HandoutMaker
{
    private const decimal CodeRoom = 22m;

    private readonly ClassPlan plan;
    private readonly PressingPlan? pressing;
    private readonly int seams;
    private readonly IReadOnlyList<BlockMeasure> measures;
    private readonly Func<PlannedKit, string?> address;
    private readonly Dictionary<long, WayShare> ways = [];

    /// <summary>Prepares what all handouts share.</summary>
    /// <param name="plan">The class.</param>
    /// <param name="address">The whole address of the page that a kit's code leads to; null for a kit without a code.</param>
    public HandoutMaker(ClassPlan plan, Func<PlannedKit, string?> address)
    {
        this.plan = plan;
        this.address = address;
        var sound = plan.Block is { } block && BlockChecks.Check(block).Count == 0 ? block : null;
        pressing = sound is null ? null : PressingPlan.For(sound);
        seams = sound is null ? 0 : SeamsAcross.LeftToRight(sound);
        measures = seams == 0 ? [] : BlockMeasures.Of(plan.UnfinishedBlock.Width, seams, plan.Habits.Metric);
    }

    /// <summary>Kits that a handout is made for: those of students, and those that will be claimed.</summary>
    public static IEnumerable<PlannedKit> KitsOf(ClassPlan plan) => plan.Kits.Where(kit => kit.Role is KitRole.Student or KitRole.Open);

    /// <summary>The handout of one kit.</summary>
    public Handout Of(PlannedKit kit)
    {
        var colourway = plan.ColourwayOf(kit);
        var shared = SharedBy(colourway);
        var drawings = shared.Drawings.For(string.Create(CultureInfo.InvariantCulture, $"k{kit.Number}"));
        return new Handout
        {
            Kit = kit,
            Colourway = colourway?.Name,
            Fabrics = shared.Fabrics,
            Lines = shared.Lines,
            Cutting = drawings.Cutting,
            Picture = drawings.Picture,
            Pressing = drawings.Pressing,
            PressingLines = [.. (pressing?.Lines() ?? []).Select(line => Say(line))],
            Steps = [.. plan.CutList.Steps.Zip(drawings.Steps, (step, drawing) => new HandoutStep(step, drawing))],
            Code = address(kit) is { } leadsTo ? QrSquare.Of(leadsTo, CodeRoom) : null,
            SeamTest = new SeamTest(3, plan.Habits.Metric ? Length.FromMillimetres(40) : Length.FromInches(1, 1, 2), plan.Rules.SeamAllowance),
            SeamsAcross = seams,
            Measures = measures,
        };
    }

    /// <summary>What all handouts in one colourway have in common.</summary>
    private WayShare SharedBy(PlannedColourway? colourway)
    {
        if (ways.TryGetValue(colourway?.ColourwayId ?? 0, out var known))
        {
            return known;
        }

        var fabrics = plan.FabricsOf(colourway);
        var roles = plan.Letters.ToDictionary(fabric => fabric.Letter, fabric => fabric.Name);
        var shown = plan.CutList.Fabrics.Select(list => new HandoutFabric(
            list.Letter,
            roles.GetValueOrDefault(list.Letter, list.Name),
            fabrics.GetValueOrDefault(list.Letter)?.Name ?? Say("not chosen yet"),
            fabrics.GetValueOrDefault(list.Letter)?.Colour ?? "#ffffff"));
        var share = new WayShare([.. shown], plan.LinesIn(colourway), WayDrawings.Of(plan, colourway, pressing is not null));
        return ways[colourway?.ColourwayId ?? 0] = share;
    }

    private sealed record WayShare(IReadOnlyList<HandoutFabric> Fabrics, IReadOnlyList<KitLine> Lines, WayDrawings Drawings);
}
