using KittingBee.Planning.Classes;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Sizes in the words of a cut list, in the reader's measure.</summary>
internal static class Sizes
{
    public static string Text(Length length, CuttingRules? rules = null) => LengthText.Write(length, Style(rules));

    /// <summary>"4½″ square" or "4½″ × 2½″".</summary>
    public static Sentence Text(Length width, Length height, CuttingRules? rules = null) =>
        PieceNames.SizeInWords(width, height, Style(rules));

    private static LengthStyle Style(CuttingRules? rules)
    {
        if (rules is null)
        {
            return LengthStyle.Eighths;
        }

        if (rules.Metric)
        {
            return LengthStyle.Centimetres;
        }

        return rules.CuttingStep.IsMultipleOf(Length.FromInches(0, 1, 8)) ? LengthStyle.Eighths
            : rules.CuttingStep.IsMultipleOf(Length.FromInches(0, 1, 16)) ? LengthStyle.Sixteenths
            : LengthStyle.ThirtySeconds;
    }
}
