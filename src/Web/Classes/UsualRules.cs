using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>The rules a block is shown by outside a class, and a new class starts from: ¼ in seams and eighths, or 7.5 mm seams and millimetres.</summary>
public static class UsualRules
{
    public static CuttingRules For(bool metric) => metric
        ? new CuttingRules { Metric = true, SeamAllowance = Length.FromMillimetres(7.5m), CuttingStep = Length.FromMillimetres(1m) }
        : new CuttingRules();

    /// <summary>Those kept with a block, or the usual ones where none are.</summary>
    public static CuttingRules Of(StoredBlock block, bool metric) => block.Rules is { } kept
        ? For(metric) with
        {
            SeamAllowance = kept.SeamAllowance,
            CuttingStep = kept.CuttingStep,
            Methods = StoredJson.Read<Methods>(kept.MethodsJson),
            BlocksPerKit = kept.BlocksPerKit,
        }
        : For(metric);

    /// <summary>As they are kept with a block.</summary>
    public static KeptRules ToKeep(CuttingRules rules) =>
        new(rules.SeamAllowance, rules.CuttingStep, StoredJson.Write(rules.Methods), rules.BlocksPerKit);
}
