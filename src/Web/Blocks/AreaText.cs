using KittingBee.Web.Classes;

namespace KittingBee.Web.Blocks;

/// <summary>Areas of cloth as a person reads them.</summary>
public static class AreaText
{
    /// <summary>Square inches or square centimetres, to the whole number.</summary>
    public static string Write(decimal squareInches, ClassHabits habits) => habits.Metric
        ? Say($"{squareInches * 2.54m * 2.54m:#,##0} cm²")
        : Say($"{squareInches:#,##0} sq in");
}
