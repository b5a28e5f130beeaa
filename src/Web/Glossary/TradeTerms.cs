using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Documents.Drawing;

namespace KittingBee.Web.Glossary;

/// <summary>The trade's words that the pages use, in the reader's language.</summary>
public static class TradeTerms
{
    public static IReadOnlyList<Term> All() => [.. Blocks(), .. Units(), .. Settings(), .. Cloth()];

    private static IEnumerable<Term> Blocks()
    {
        yield return new("block", Say("Block"), Say("The square that is sewn and repeated: units on a grid, sewn together row by row."), TermDrawings.Block(Say("A block")));
        yield return new("patch", Say("Patch"), Say("One piece of fabric in the finished block."), TermDrawings.Unit(Say("A patch"), UnitKind.Plain, ["B"]));
        yield return new("unit", Say("Unit"), Say("A few patches sewn into one square or rectangle before the block is put together; here one of a block’s nine."), TermDrawings.Block(Say("A unit of a block"), new GridArea(1, 0, 1, 1)));
        yield return new("colourway", Say("Colourway"), Say("Which fabric each letter of the block is in. The same block in blue and in red has two colourways."), TermDrawings.Colourways(Say("A block in two colourways")));
        yield return new("seam-allowance", Say("Seam allowance"), Say("What is cut beyond each finished edge so that it can be sewn: ¼ in here, or 6 to 7.5 mm in metric patterns."), TermSketches.SeamAllowance(Say("A patch and its seam")));
        yield return new("finished-size", Say("Finished and unfinished size"), Say("Finished is what shows when everything is sewn. Unfinished is before the outer seams: larger by two seam allowances each way."), TermSketches.FinishedSize(Say("Unfinished and finished")));
        yield return new("pressing", Say("Pressing, and seams that nest"), Say("Where seams cross, they are pressed to opposite sides, so that they lock against each other and the corner meets. The arrows say which way."), TermDrawings.Block(Say("A block with pressing arrows"), pressing: true));
    }

    private static IEnumerable<Term> Units()
    {
        yield return new("half-square-triangle", Say("Half-square triangle"), Say("A square of two triangles. Two at a time: two squares face to face, sewn on both sides of the diagonal and cut apart."), TermDrawings.Unit(Say("Half-square triangle"), UnitKind.HalfSquareTriangle, ["A", "B"]));
        yield return new("quarter-square-triangle", Say("Quarter-square triangle"), Say("A square of four triangles that meet in the middle."), TermDrawings.Unit(Say("Quarter-square triangle"), UnitKind.QuarterSquareTriangle, ["A", "B", "A", "B"]));
        yield return new("flying-geese", Say("Flying geese"), Say("A rectangle twice as wide as high: one large triangle, the goose, and two small ones, the sky."), TermDrawings.Unit(Say("Flying geese"), UnitKind.FlyingGeese, ["B", "A", "A"], 4, 2));
        yield return new("stitch-and-flip", Say("Stitch-and-flip corner"), Say("A small square sewn across a corner of a larger patch from point to point, trimmed and folded over."), TermDrawings.Unit(Say("Stitch-and-flip corners"), UnitKind.FlippedCorners, ["B", "A", "A", "A", "A"], 5, 5));
        yield return new("square-in-a-square", Say("Square in a square"), Say("A square standing on its point, with a triangle at each corner."), TermDrawings.Unit(Say("Square in a square"), UnitKind.SquareInASquare, ["B", "A"]));
        yield return new("four-patch", Say("Four-patch"), Say("Four squares, two and two."), TermDrawings.Squares(Say("Four-patch"), 2));
        yield return new("nine-patch", Say("Nine-patch"), Say("Nine squares, three and three."), TermDrawings.Squares(Say("Nine-patch"), 3));
        yield return new("rail", Say("Rail"), Say("One of several equal bars side by side; sewn from long strips, they are cut apart into many units at once."), TermDrawings.Unit(Say("Rails"), UnitKind.Rails, ["A", "B", "C"]));
    }

    private static IEnumerable<Term> Settings()
    {
        var inch = Length.FromInches(1);
        var two = new Project { Across = 2, Down = 2 };
        yield return new("sashing", Say("Sashing and cornerstones"), Say("Strips between the blocks, and the squares where they cross."), TermDrawings.Project(Say("Blocks with sashing and cornerstones"), two with { Sashing = new Sashing("C", inch * 2, "D", true) }));
        yield return new("border", Say("Border"), Say("A frame of strips around all blocks."), TermDrawings.Project(Say("Blocks with a border"), two with { Borders = [new Border("C", inch * 3)] }));
        yield return new("on-point", Say("On point, setting triangles"), Say("Blocks turned to stand on a corner; triangles at the sides and corners fill the edge."), TermDrawings.Project(Say("Blocks on point"), two with { Setting = ProjectSetting.OnPoint, Alternate = "D", SettingTriangles = "C" }));
        yield return new("binding", Say("Binding"), Say("The narrow fold of fabric that closes the edge of a finished piece, cut in strips and joined."), TermSketches.Binding(Say("A bound corner")));
        yield return new("backing", Say("Backing"), Say("The fabric of the back, in one panel or several; it reaches past the top on all sides until it is trimmed."), TermSketches.Backing(Say("A top on its backing")));
    }

    private static IEnumerable<Term> Cloth()
    {
        yield return new("bolt", Say("Bolt, selvage, usable width"), Say("Fabric is sold off the bolt, by the length. The selvages are its woven edges; the usable width lies between them."), TermDrawings.Cloth(Say("Cloth off the bolt"), Say("selvage"), Say("usable width"), Say("strip")));
        yield return new("yardage", Say("Yardage"), Say("A length off the bolt, from selvage to selvage."), TermSketches.Yardage(Say("Cloth unrolled off the bolt")));
        yield return new("strip", Say("Strip and sub-cut"), Say("A strip is cut across the bolt, from selvage to selvage; sub-cuts make the pieces out of it."), TermSketches.Strip(Say("A strip, and pieces cut from it")));
        yield return new("directional", Say("Directional"), Say("A print that has an up and a down, so that no piece of it may be turned."), TermSketches.Directional(Say("A print that may not be turned")));
        yield return new("precut", Say("Precut"), Say("Fabric sold ready cut, such as strips of 2½ in and squares of 5 or 10 in, in packs."), TermSketches.Precut(Say("Squares and strips, precut")));
        yield return new("fat-quarter", Say("Fat quarter"), Say("A quarter of a yard cut as half a yard by half the width: about 18 × 21 in."), TermSketches.FatQuarter(Say("A fat quarter")));
        yield return new("remnant", Say("Remnant"), Say("A piece left over that is worth keeping."), TermSketches.Remnant(Say("A remnant")));
        yield return new("roster", Say("Roster"), Say("The list of the students of a class."));
        yield return new("notions", Say("Notions"), Say("What a kit needs besides fabric: thread, needles, a zip."));
    }
}
