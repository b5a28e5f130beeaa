using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Classes;

/// <summary>Sizes of pieces in words, the same on tickets, lists and messages.</summary>
public static class PieceNames
{
    /// <summary>"4½″ square", or "2½″ × 4½″" with the width across the bolt first.</summary>
    public static string Size(Length width, Length height, LengthStyle style = LengthStyle.Eighths) => SizeInWords(width, height, style).ToString();

    /// <summary>The same, to be said in the reader's language.</summary>
    public static Sentence SizeInWords(Length width, Length height, LengthStyle style = LengthStyle.Eighths) => width == height
        ? (Sentence)$"{LengthText.Write(width, style)} square"
        : $"{LengthText.Write(width, style)} × {LengthText.Write(height, style)}";
}
