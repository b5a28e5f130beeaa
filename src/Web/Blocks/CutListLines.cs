using KittingBee.Planning.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Showing;

namespace KittingBee.Web.Blocks;

/// <summary>A cut list as the lines that <see cref="TypedCutList"/> reads back, so that a class can be made of any list.</summary>
public static class CutListLines
{
    public static string Write(CutList list, ClassHabits habits) => string.Join("\n\n", list.Fabrics.Where(fabric => fabric.Pieces.Count > 0).Select(fabric =>
        string.Join('\n', fabric.Pieces.Select(piece => $"{piece.Count} @ {habits.InField(piece.Width)} x {habits.InField(piece.Height)}").Prepend($"{fabric.Letter} {fabric.Name}".TrimEnd()))));
}
