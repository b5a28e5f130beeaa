using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Classes;

/// <summary>Sizes of pieces in words, the same on tickets, lists and messages.</summary>
public static class PieceNames
{
    /// <summary>"4½″ square", or "2½″ × 4½″" with the width across the bolt first.</summary>
    public static string Size(Length width, Length height, LengthStyle style = LengthStyle.Eighths) => width == height
        ? $"{LengthText.Write(width, style)} square"
        : $"{LengthText.Write(width, style)} × {LengthText.Write(height, style)}";
}
