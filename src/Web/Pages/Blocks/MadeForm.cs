using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;

namespace KittingBee.Web.Pages.Blocks;

/// <summary>How a block is made, as chosen on its page.</summary>
public sealed class MadeForm
{
    public HalfSquareMethod HalfSquare { get; set; }

    public QuarterSquareMethod QuarterSquare { get; set; }

    public GeeseMethod Geese { get; set; }

    public SquareInASquareMethod SquareInASquare { get; set; }

    public PatchMethod Rails { get; set; }

    public PatchMethod Checkerboard { get; set; }

    public TrimMethod Trim { get; set; }

    public string? Seam { get; set; }

    public string? Step { get; set; }

    public string? Blocks { get; set; }

    /// <summary>The rules; where a field does not read, its usual value, and the message stands at the field.</summary>
    public CuttingRules Read(FormReader reader, ClassHabits habits)
    {
        var usual = UsualRules.For(habits.Metric);
        Seam ??= habits.Show(usual.SeamAllowance);
        Step ??= habits.Show(usual.CuttingStep);
        Blocks ??= "1";
        var seam = reader.Size(nameof(Seam), Seam, "The seam allowance");
        var step = reader.Size(nameof(Step), Step, "The cutting step");
        var blocks = reader.Whole(nameof(Blocks), Blocks, "Blocks in a kit", 1, BlockLimits.Copies);
        var rules = usual with
        {
            SeamAllowance = seam > Length.Zero ? seam : usual.SeamAllowance,
            CuttingStep = step > Length.Zero ? step : usual.CuttingStep,
            BlocksPerKit = blocks,
            Methods = new Methods
            {
                HalfSquareTriangle = HalfSquare,
                QuarterSquareTriangle = QuarterSquare,
                FlyingGeese = Geese,
                SquareInASquare = SquareInASquare,
                Rails = Rails,
                Checkerboard = Checkerboard,
                Trim = Trim,
            },
        };
        return rules;
    }
}
