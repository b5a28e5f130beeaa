namespace KittingBee.Web.Glossary;

/// <summary>Drawings of words that are no block: things on the table, in the bag and on the shelf.</summary>
internal static class TermSketches
{
    private const string Wood = "#6F5440";

    /// <summary>A bag with what one student needs.</summary>
    public static string Kit(string title) => new Sketch(title)
        .Plain(78, 10, 84, 92).Plain(78, 10, 84, 10, "#CBBFA9").Cloth("A", 88, 30, 30, 30).Cloth("B", 124, 30, 28, 30).Cloth("C", 88, 66, 64, 26).Svg();

    /// <summary>The same fabric as pieces, as strips and as a length.</summary>
    public static string KitFormat(string title) => new Sketch(title)
        .Cloth("B", 16, 24, 26, 26).Cloth("B", 46, 24, 26, 26).Cloth("B", 16, 56, 26, 26).Cloth("B", 46, 56, 26, 26)
        .Cloth("B", 92, 30, 56, 10).Cloth("B", 92, 48, 56, 10).Cloth("B", 92, 66, 56, 10)
        .Cloth("B", 168, 22, 56, 64).Svg();

    /// <summary>A plan's length, and the line that none can go below.</summary>
    public static string Floor(string title, string floor) => new Sketch(title)
        .Cloth("B", 20, 48, 196, 30).Line("M196 34V92", Documents.Drawing.BlockDrawing.Accent).Words(196, 27, floor).Across(20, 216, 98).Svg();

    /// <summary>A sheet of paper with strips to tick off.</summary>
    public static string Ticket(string title) => new Sketch(title)
        .Plain(74, 6, 92, 98).Cloth("B", 84, 16, 72, 16)
        .Plain(84, 44, 9, 9).Line("M100 49H156").Plain(84, 62, 9, 9).Line("M100 67H148").Plain(84, 80, 9, 9).Line("M100 85H152").Line("M85 48l3 4l6 -9", Documents.Drawing.BlockDrawing.Accent).Svg();

    /// <summary>Cloth that kits are cut from, and room for two more.</summary>
    public static string Headroom(string title) => new Sketch(title)
        .Cloth("B", 20, 34, 42, 42).Cloth("B", 62, 34, 42, 42).Cloth("B", 104, 34, 42, 42).Dashed(146, 34, 36, 42).Dashed(182, 34, 36, 42).Words(164, 60, "+1").Words(200, 60, "+1").Svg();

    /// <summary>Bolts, and folded cloth beside them.</summary>
    public static string Shelf(string title) => new Sketch(title)
        .Cloth("B", 28, 20, 22, 72).Cloth("C", 54, 28, 22, 64).Cloth("A", 80, 16, 22, 76).Cloth("C", 122, 80, 84, 12).Cloth("A", 126, 68, 76, 12).Cloth("B", 130, 56, 64, 12).Plain(14, 92, 212, 8, Wood).Svg();

    /// <summary>What was bought lies over what was used and what is left.</summary>
    public static string Settle(string title, string bought, string used, string left) => new Sketch(title)
        .Words(120, 20, bought).Cloth("A", 20, 26, 200, 22).Cloth("B", 20, 56, 146, 22).Cloth("C", 170, 56, 50, 22).Words(93, 96, used).Words(195, 96, left).Svg();

    /// <summary>A patch with its seam a little within its edge.</summary>
    public static string SeamAllowance(string title) => new Sketch(title)
        .Cloth("B", 76, 10, 90, 90).Seam(87, 21, 68, 68).Line("M76 8V4M87 8V4M70 6H93", Documents.Drawing.BlockDrawing.Accent).Words(52, 16, "¼″").Svg();

    /// <summary>A unit as it is sewn, and what shows of it in the block.</summary>
    public static string FinishedSize(string title) => new Sketch(title)
        .Cloth("B", 22, 8, 78, 78).Seam(31, 17, 60, 60).Across(22, 100, 95).Words(61, 108, "6½″")
        .Cloth("B", 148, 17, 60, 60).Across(148, 208, 95).Words(178, 108, "6″").Svg();

    /// <summary>A corner of the finished piece with the narrow fold round it.</summary>
    public static string Binding(string title) => new Sketch(title)
        .Cloth("A", 18, 8, 184, 76).Cloth("B", 18, 84, 184, 14).Cloth("B", 202, 8, 14, 76).Cloth("B", 202, 84, 14, 14).Line("M202 84l14 14").Svg();

    /// <summary>The top on the larger fabric of the back.</summary>
    public static string Backing(string title) => new Sketch(title)
        .Cloth("C", 36, 6, 168, 98).Cloth("A", 54, 20, 132, 70).Cloth("B", 76, 36, 38, 38).Cloth("B", 126, 36, 38, 38).Svg();

    /// <summary>Cloth unrolled off the bolt.</summary>
    public static string Yardage(string title) => new Sketch(title)
        .Cloth("B", 60, 22, 150, 62).Plain(34, 14, 28, 78, Wood).Across(62, 210, 97).Line("M210 16V90", Documents.Drawing.BlockDrawing.Accent).Svg();

    /// <summary>A strip off the cloth, and the pieces cut from a strip.</summary>
    public static string Strip(string title) => new Sketch(title)
        .Cloth("B", 20, 10, 200, 30).Cloth("B", 20, 62, 30, 30).Cloth("B", 56, 62, 30, 30).Cloth("B", 92, 62, 30, 30).Cloth("B", 132, 62, 50, 30).Dashed(188, 62, 32, 30).Svg();

    /// <summary>Sprigs that stand upright, and the same piece turned, which may not be.</summary>
    public static string Directional(string title) => new Sketch(title)
        .Cloth("A", 24, 12, 84, 84).Line(Sprigs(24, 12)).Up(120, 92, 18)
        .Cloth("A", 136, 12, 84, 84).Line("M156 34l18 -9v18zM156 34h-7M186 34l18 -9v18zM186 34h-7M156 74l18 -9v18zM156 74h-7M186 74l18 -9v18zM186 74h-7").Line("M136 12l84 84M220 12l-84 84", Documents.Drawing.BlockDrawing.Accent).Svg();

    /// <summary>A pile of squares and a pile of strips.</summary>
    public static string Precut(string title) => new Sketch(title)
        .Cloth("A", 24, 36, 54, 54).Cloth("C", 32, 30, 54, 54).Cloth("A", 40, 24, 54, 54).Cloth("B", 48, 18, 54, 54)
        .Cloth("C", 126, 82, 92, 9).Cloth("A", 126, 70, 92, 9).Cloth("B", 126, 58, 92, 9).Cloth("C", 126, 46, 92, 9).Cloth("A", 126, 34, 92, 9).Cloth("B", 126, 22, 92, 9).Svg();

    /// <summary>A yard of cloth cut in four.</summary>
    public static string FatQuarter(string title) => new Sketch(title)
        .Cloth("A", 18, 14, 96, 82).Cloth("B", 18, 14, 48, 41).Line("M66 14V96M18 55H114")
        .Cloth("B", 148, 24, 58, 50).Across(148, 206, 84).Words(177, 99, "21″").Words(222, 54, "18″").Svg();

    /// <summary>What is left where the rest was cut away.</summary>
    public static string Remnant(string title) => new Sketch(title).Dashed(24, 12, 192, 86).Cloth("B", 124, 44, 92, 54).Svg();

    private static string Sprigs(int x, int y) => string.Concat(
        from row in Enumerable.Range(0, 2) from column in Enumerable.Range(0, 2)
        select FormattableString.Invariant($"M{x + 22 + (40 * column)} {y + 14 + (40 * row)}l-9 18h18zM{x + 22 + (40 * column)} {y + 32 + (40 * row)}v7"));
}
