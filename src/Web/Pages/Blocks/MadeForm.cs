using System.Globalization;
using KittingBee.Planning.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;

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

    /// <summary>The version of the block that the form was opened on.</summary>
    public long Version { get; set; }

    public static MadeForm Of(CuttingRules rules, ClassHabits habits, long version) => new()
    {
        HalfSquare = rules.Methods.HalfSquareTriangle,
        QuarterSquare = rules.Methods.QuarterSquareTriangle,
        Geese = rules.Methods.FlyingGeese,
        SquareInASquare = rules.Methods.SquareInASquare,
        Rails = rules.Methods.Rails,
        Checkerboard = rules.Methods.Checkerboard,
        Trim = rules.Methods.Trim,
        Seam = habits.InField(rules.SeamAllowance),
        Step = habits.InField(rules.CuttingStep),
        Blocks = rules.BlocksPerKit.ToString(CultureInfo.InvariantCulture),
        Version = version,
    };

    /// <summary>The rules; where a field does not read or goes too far, its usual value, and the message stands at the field.</summary>
    public CuttingRules Read(FormReader reader, ClassHabits habits)
    {
        var usual = UsualRules.For(habits.Metric);
        var rules = usual with
        {
            SeamAllowance = reader.Size(nameof(Seam), Seam, "The seam allowance"),
            CuttingStep = reader.Size(nameof(Step), Step, "The cutting step"),
            BlocksPerKit = reader.Whole(nameof(Blocks), Blocks, "Blocks in a kit", 1, BlockLimits.Copies),
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
        foreach (var problem in CuttingRulesChecks.Check(rules))
        {
            var seam = problem.Field == "seamAllowance";
            if (seam ? rules.SeamAllowance.IsPositive : rules.CuttingStep.IsPositive)
            {
                reader.WrongAsSaid(seam ? nameof(Seam) : nameof(Step), Say(problem.Said));
            }

            rules = seam ? rules with { SeamAllowance = usual.SeamAllowance } : rules with { CuttingStep = usual.CuttingStep };
        }

        return rules;
    }

    /// <summary>What was chosen, as the end of an address.</summary>
    public QueryString ToQuery() => QueryString.Create(new Dictionary<string, string?>
    {
        ["made.HalfSquare"] = HalfSquare.ToString(),
        ["made.QuarterSquare"] = QuarterSquare.ToString(),
        ["made.Geese"] = Geese.ToString(),
        ["made.SquareInASquare"] = SquareInASquare.ToString(),
        ["made.Rails"] = Rails.ToString(),
        ["made.Checkerboard"] = Checkerboard.ToString(),
        ["made.Trim"] = Trim.ToString(),
        ["made.Seam"] = Seam,
        ["made.Step"] = Step,
        ["made.Blocks"] = Blocks,
    });
}
