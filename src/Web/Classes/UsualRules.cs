using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Classes;

/// <summary>The rules a block is shown by outside a class, and a new class starts from: ¼ in seams and eighths, or 7.5 mm seams and millimetres.</summary>
public static class UsualRules
{
    public static CuttingRules For(bool metric) => metric
        ? new CuttingRules { Metric = true, SeamAllowance = Length.FromMillimetres(7.5m), CuttingStep = Length.FromMillimetres(1m) }
        : new CuttingRules();
}
