namespace KittingBee.Web.Documents.Drawing;

/// <summary>The hatch patterns: one for each fabric letter.</summary>
internal static class Hatches
{
    private const int Shapes = 13;

    /// <summary>Writes the pattern of a letter. On white paper the ground stays white and the ink is the fabric's.</summary>
    /// <param name="svg">Where to.</param>
    /// <param name="id">The pattern's id.</param>
    /// <param name="letter">Whose hatch.</param>
    /// <param name="colour">The fabric's colour, #RRGGBB.</param>
    /// <param name="onWhite">True for drawings that are printed without a ground.</param>
    public static void Define(SvgText svg, string id, string letter, string colour, bool onWhite)
    {
        var place = FabricLook.Place(letter);
        var side = place < Shapes ? 6m : 11m;
        var ink = onWhite ? DarkEnough(colour) : FabricLook.InkOn(colour);
        var number = SvgText.Number(side);
        svg.Open("pattern", ("id", id), ("width", number), ("height", number), ("patternUnits", "userSpaceOnUse"));
        svg.Empty("rect", ("width", number), ("height", number), ("fill", onWhite ? "#FFFFFF" : colour));
        Draw(svg, place % Shapes, side, ink, onWhite ? "0.9" : "0.6");
        svg.Close("pattern");
    }

    private static void Draw(SvgText svg, int shape, decimal side, string ink, string strength)
    {
        string At(decimal share) => SvgText.Number(side * share);
        void Line(string path) => svg.Empty(
            "path", ("d", path), ("fill", "none"), ("stroke", ink), ("stroke-opacity", strength), ("stroke-width", "0.9"));
        void Dot(decimal x, decimal y, decimal radius) => svg.Empty(
            "circle", ("cx", At(x)), ("cy", At(y)), ("r", At(radius)), ("fill", ink), ("fill-opacity", strength));

        var (full, half) = (At(1), At(0.5m));
        switch (shape)
        {
            case 0:
                break; // The ground is plain.
            case 1:
                Line($"M0 {full}L{full} 0M{At(-0.1m)} {At(0.1m)}L{At(0.1m)} {At(-0.1m)}M{At(0.9m)} {At(1.1m)}L{At(1.1m)} {At(0.9m)}");
                break;
            case 2:
                Dot(0.5m, 0.5m, 0.17m);
                break;
            case 3:
                Line($"M0 {half}H{full}");
                break;
            case 4:
                Line($"M0 0L{full} {full}M{At(-0.1m)} {At(0.9m)}L{At(0.1m)} {At(1.1m)}M{At(0.9m)} {At(-0.1m)}L{At(1.1m)} {At(0.1m)}");
                break;
            case 5:
                Line($"M{half} 0V{full}");
                break;
            case 6:
                Line($"M0 {At(0.75m)}L{half} {At(0.25m)}L{full} {At(0.75m)}");
                break;
            case 7:
                Line($"M0 0L{full} {full}M0 {full}L{full} 0");
                break;
            case 8:
                Line($"M{At(0.15m)} {half}H{At(0.7m)}");
                break;
            case 9:
                Line($"M0 {half}H{full}M{half} 0V{full}");
                break;
            case 10:
                svg.Empty("circle", ("cx", half), ("cy", half), ("r", At(0.28m)), ("fill", "none"), ("stroke", ink), ("stroke-opacity", strength), ("stroke-width", "0.9"));
                break;
            case 11:
                Line($"M{half} {At(0.2m)}V{At(0.8m)}M{At(0.2m)} {half}H{At(0.8m)}");
                break;
            default:
                Dot(0.25m, 0.25m, 0.1m);
                Dot(0.75m, 0.75m, 0.1m);
                break;
        }
    }

    /// <summary>Light colours vanish as thin lines on white: those are drawn in brown ink.</summary>
    private static string DarkEnough(string colour) => FabricLook.InkOn(colour) == "#FFFFFF" ? colour : "#7A5C1E";
}
