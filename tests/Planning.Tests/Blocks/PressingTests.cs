using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using static KittingBee.Planning.Tests.Blocks.Sketch;

namespace KittingBee.Planning.Tests.Blocks;

public sealed class PressingTests
{
    private const int MostSeams = 11;

    /// <summary>
    /// Every choice of sides, scored anew from the assembly and the patches alone: nests, then few toward pieced units, then rows
    /// one way. A seam inside a unit is where two of its patches touch. Flipped corners and skies lie away from the middle patch;
    /// every other seam inside a unit is free.
    /// </summary>
    private static (int Nested, int Toward, int OneWay, int Crossings) ByTryingAll(Block block)
    {
        var joints = new List<(AssemblyPiece Join, AssemblyPiece Before, AssemblyPiece After, bool Open)>();
        foreach (var join in Assembly.For(block).PartsFirst().Where(piece => piece.Join is JoinKind.SideBySide or JoinKind.Stacked))
        {
            joints.AddRange(join.Parts.Zip(join.Parts.Skip(1), (before, after) => (join, before, after, IsThick(block, join, after))));
        }

        var patches = BlockPatches.Of(block);
        var inside = SeamsInside(block, patches);
        var free = inside.Index().Where(item => item.Item.Fixed is null).Select(item => item.Index).ToList();
        var ends = joints.Select(joint => Line(patches, joint)).Concat(inside.Select(seam => (seam.From, seam.To))).Index()
            .SelectMany(item => new[] { (Seam: item.Index, At: item.Item.Item1, Other: item.Item.Item2), (Seam: item.Index, At: item.Item.Item2, Other: item.Item.Item1) }).ToList();
        var crossings = joints.SelectMany(joint => Crossings(patches, joint, ends)).ToList();

        var best = (-1, 0, 0, crossings.Count);
        for (var sides = 0; sides < 1 << (joints.Count + free.Count); sides++)
        {
            bool Far(int joint) => (sides >> joint & 1) == 1;

            // Toward the side of the greater sum of x and of y a little: no seam is parallel to that way.
            bool Greater(int seam) => inside[seam].Fixed ?? (sides >> (joints.Count + free.IndexOf(seam)) & 1) == 1;
            bool Lies(int seam, bool alongX) => seam < joints.Count ? Far(seam) : TowardGreater(inside[seam - joints.Count], Greater(seam - joints.Count), alongX);
            var nested = crossings.Count(crossing =>
            {
                if (crossing.Near.Concat(crossing.Far).Any(seam => seam < joints.Count && joints[seam].Open))
                {
                    return false;
                }

                var near = crossing.Near.Select(seam => Lies(seam, crossing.AlongX)).Distinct().ToList();
                var far = crossing.Far.Select(seam => Lies(seam, crossing.AlongX)).Distinct().ToList();
                return near.Count == 1 && far.Count == 1 && near[0] != far[0];
            });
            var toward = Enumerable.Range(0, joints.Count).Count(joint => !joints[joint].Open && TouchesPieced(block, joints[joint], Far(joint)));
            var oneWay = Enumerable.Range(0, joints.Count).Where(joint => !joints[joint].Open).GroupBy(joint => joints[joint].Join)
                .Count(row => row.Count() > 1 && row.Select(Far).Distinct().Count() == 1);
            var score = (nested, -toward, oneWay);
            if (score.CompareTo((best.Item1, -best.Item2, best.Item3)) > 0)
            {
                best = (nested, toward, oneWay, crossings.Count);
            }
        }

        return best;
    }

    private static (PatchPoint From, PatchPoint To) Line(BlockPatches patches, (AssemblyPiece Join, AssemblyPiece Before, AssemblyPiece After, bool Open) joint)
    {
        var (join, after) = (joint.Join, joint.After);
        return join.Join == JoinKind.SideBySide
            ? (new(patches.ColumnEdges[after.Column], patches.RowEdges[join.Row]), new(patches.ColumnEdges[after.Column], patches.RowEdges[join.Row + join.RowSpan]))
            : (new(patches.ColumnEdges[join.Column], patches.RowEdges[after.Row]), new(patches.ColumnEdges[join.Column + join.ColumnSpan], patches.RowEdges[after.Row]));
    }

    /// <summary>Where seams end on both sides of a joint: all that lie within the pieces it joins.</summary>
    private static IEnumerable<(bool AlongX, List<int> Near, List<int> Far)> Crossings(
        BlockPatches patches, (AssemblyPiece Join, AssemblyPiece Before, AssemblyPiece After, bool Open) joint, List<(int Seam, PatchPoint At, PatchPoint Other)> ends)
    {
        var (from, to) = Line(patches, joint);
        var upright = from.X == to.X;
        Length Across(PatchPoint point) => upright ? point.X : point.Y;
        Length Along(PatchPoint point) => upright ? point.Y : point.X;
        foreach (var place in ends.Where(end => Across(end.At) == Across(from)).GroupBy(end => Along(end.At)))
        {
            var within = place.Where(end => Along(end.At) >= Along(from) && Along(end.At) <= Along(to) && (Along(end.At) > Along(from) || Along(end.Other) > Along(from)) && (Along(end.At) < Along(to) || Along(end.Other) < Along(to))).ToList();
            var near = within.Where(end => Across(end.Other) < Across(from)).Select(end => end.Seam).ToList();
            var far = within.Where(end => Across(end.Other) > Across(from)).Select(end => end.Seam).ToList();
            if (near.Count > 0 && far.Count > 0)
            {
                yield return (!upright, near, far);
            }
        }
    }

    private sealed record Inside(PatchPoint From, PatchPoint To, bool? Fixed);

    /// <summary>Edges that two patches of a unit share. Fixed says which side corners lie on: that of the greater x, or of the greater y where the seam is level.</summary>
    private static List<Inside> SeamsInside(Block block, BlockPatches patches)
    {
        var found = new List<Inside>();
        foreach (var unit in patches.Patches.GroupBy(patch => patch.Unit))
        {
            var all = unit.ToList();
            for (var one = 0; one < all.Count; one++)
            {
                for (var other = one + 1; other < all.Count; other++)
                {
                    var shared = all[one].Corners.Intersect(all[other].Corners).ToList();
                    if (shared.Count == 2)
                    {
                        var letters = block.Units[unit.Key - 1];
                        var outer = letters.Kind switch
                        {
                            UnitKind.FlyingGeese => all[one].Corners.Distinct().Count() == 3 && one == 0 ? all[other] : all[one],
                            UnitKind.FlippedCorners or UnitKind.SquareInASquare => other == all.Count - 1 ? all[one] : all[other],
                            _ => null,
                        };
                        found.Add(new(shared[0], shared[1], outer is null ? null : IsGreater(outer, shared[0], shared[1])));
                    }
                }
            }
        }

        return found;
    }

    private static bool IsGreater(Patch outer, PatchPoint from, PatchPoint to)
    {
        // Which side of the line the patch's third corner is on, by its x at the line's height, or by its y where the line is level.
        var third = outer.Corners.First(corner => corner != from && corner != to);
        if (from.Y == to.Y)
        {
            return third.Y > from.Y;
        }

        var at = from.X.Ticks + ((Int128)(third.Y - from.Y).Ticks * (to.X - from.X).Ticks / (to.Y - from.Y).Ticks);
        return third.X.Ticks > at;
    }

    /// <summary>Whether the allowance lies toward greater x, or greater y, at the end of a seam that is pressed to its greater side or not.</summary>
    private static bool TowardGreater(Inside seam, bool greater, bool alongX)
    {
        if (alongX || seam.From.Y == seam.To.Y)
        {
            return greater;
        }

        // A seam that falls to the right has its greater-x side above.
        var falls = (seam.To.X > seam.From.X) == (seam.To.Y > seam.From.Y);
        return falls ? !greater : greater;
    }

    private static bool TouchesPieced(Block block, (AssemblyPiece Join, AssemblyPiece Before, AssemblyPiece After, bool Open) seam, bool far)
    {
        var part = far ? seam.After : seam.Before;
        return block.Units.Any(unit =>
        {
            var inside = unit.Row >= part.Row && unit.Row < part.Row + part.RowSpan && unit.Column >= part.Column && unit.Column < part.Column + part.ColumnSpan;
            var touches = seam.Join.Join == JoinKind.SideBySide
                ? (far ? unit.Column == part.Column : unit.Column + unit.ColumnSpan == part.Column + part.ColumnSpan)
                : (far ? unit.Row == part.Row : unit.Row + unit.RowSpan == part.Row + part.RowSpan);
            return inside && touches && unit.Kind is not (UnitKind.Plain or UnitKind.Template);
        });
    }

    private static bool IsThick(Block block, AssemblyPiece join, AssemblyPiece after)
    {
        var patches = BlockPatches.Of(block);
        var upright = join.Join == JoinKind.SideBySide;
        var (start, end) = upright ? (join.Row + 1, join.Row + join.RowSpan) : (join.Column + 1, join.Column + join.ColumnSpan);
        return Enumerable.Range(start, end - start).Any(cross =>
        {
            var (x, y) = upright
                ? (patches.ColumnEdges[after.Column], patches.RowEdges[cross])
                : (patches.ColumnEdges[cross], patches.RowEdges[after.Row]);
            return patches.Patches.Count(patch => patch.Corners.Any(corner => corner.X == x && corner.Y == y)) >= 8;
        });
    }

    private static void AgreesWithBruteForce(Block block)
    {
        var plan = PressingPlan.For(block);
        var best = ByTryingAll(block);
        Assert.Equal(best, (plan.Nested, plan.TowardPieced, plan.RowsOneWay, plan.Crossings));
    }

    /// <summary>Seams to choose for, where all are of a kind that the brute force knows and none is partial; else 0.</summary>
    private static int FreeSeams(Block block)
    {
        var known = block.Units.All(unit => unit.Kind is UnitKind.Plain or UnitKind.HalfSquareTriangle or UnitKind.FlyingGeese or UnitKind.FlippedCorners or UnitKind.SquareInASquare or UnitKind.Rails);
        return known && Assembly.For(block).PartsFirst().All(piece => piece.Join != JoinKind.PartialSeam)
            ? block.Units.Count - 1 + SeamsInside(block, BlockPatches.Of(block)).Count(seam => seam.Fixed is null)
            : 0;
    }

    [Fact]
    public void Plan_OfRandomSmallBlocks_IsAsGoodAsTryingEverything()
    {
        var blocks = new RandomBlocks(21);
        var (tried, open) = (0, 0);
        for (var round = 0; round < 20_000 && tried < 1_500; round++)
        {
            var block = blocks.Next(4, 0);
            if (block.Units.Count > 1 && FreeSeams(block) is > 0 and <= MostSeams)
            {
                AgreesWithBruteForce(block);
                tried++;
                open += PressingPlan.For(block).Seams.Any(seam => seam.Press == PressTo.Open) ? 1 : 0;
            }
        }

        Assert.Equal(1_500, tried);
    }

    /// <summary>Every grid up to 3 × 3 cells with each cell plain or pieced.</summary>
    [Fact]
    public void Plan_OfEverySmallGrid_IsAsGoodAsTryingEverything()
    {
        foreach (var (rows, columns) in new[] { (1, 2), (1, 3), (2, 1), (2, 2), (2, 3), (3, 2), (3, 3) })
        {
            for (var pieced = 0; pieced < 1 << (rows * columns); pieced++)
            {
                var units = Enumerable.Range(0, rows * columns).Select(cell => (pieced >> cell & 1) == 1
                    ? Made(cell / columns, cell % columns, UnitKind.SquareInASquare, 0, "AB")
                    : Plain(cell / columns, cell % columns, "A"));
                AgreesWithBruteForce(Of("Grid", Equal("2", columns), Equal("2", rows), "AB", [.. units]));
            }
        }
    }

    // "Open when more than 4 seams meet (8 in a windmill)": ajpadilla.com.
    [Fact]
    public void Plan_OfAPinwheel_PressesTheLastSeamOpen()
    {
        var block = Of("Pinwheel", Equal("3", 2), Equal("3", 2), "AB", Half(0, 0, "AB", 90), Half(0, 1, "AB", 180), Half(1, 0, "AB"), Half(1, 1, "AB", 270));
        var plan = PressingPlan.For(block);
        Assert.Equal(PressTo.Open, plan.Seams[^1].Press);

        // The middle under the last seam, and the diagonals there under each of the first two.
        Assert.Equal((3, 3), (plan.Crossings, plan.Nested));
        Assert.Equal(4, plan.UnitSeams.Count);
        Assert.Equal("Rows 1 to 2, columns 1 to 2: press the seam open.", plan.Lines()[^1]);
    }

    // Seams that meet are pressed in opposite directions: American Patchwork & Quilting, "The Perfect 1/4 in Seam". Here they meet at
    // the upper end of the seam between two units, and in the middle of the seam between two four-patches.
    [Fact]
    public void Plan_OfTwoTriangleSquaresMeetingAtACorner_PressesThemOppositeWays()
    {
        var plan = PressingPlan.For(Of("Peak", Equal("3", 2), Sides("3"), "AB", Half(0, 0, "AB"), Half(0, 1, "AB", 90)));
        Assert.Equal((1, 1), (plan.Crossings, plan.Nested));
        Assert.Equal(["A", "B"], plan.UnitSeams.Select(seam => seam.Toward).Order());
        Assert.Matches("^Half-square triangles: the one at row 1, column [12] toward [AB]; the one at row 1, column [12] toward [AB]\\.$", plan.Lines()[0]);
    }

    [Fact]
    public void Plan_OfTwoFourPatches_PressesTheirMiddlesOppositeWays()
    {
        var four = Made(0, 0, UnitKind.Checkerboard, 0, "") with { Patches = [["A", "B"], ["B", "A"]] };
        var plan = PressingPlan.For(Of("Two", Equal("4", 2), Sides("4"), "AB", four, four with { Column = 1 }));
        Assert.Equal((1, 1), (plan.Crossings, plan.Nested));
        var middles = plan.UnitSeams.Where(seam => seam.From.Y == seam.To.Y).Select(seam => seam.ToRight).ToList();
        Assert.Equal([false, true], middles.Order());

        // Within each, the two short seams are pressed by turns, so that they nest in themselves.
        Assert.All(plan.UnitSeams.Where(seam => seam.From.X == seam.To.X).GroupBy(seam => seam.Unit), unit => Assert.Equal([false, true], unit.Select(seam => seam.ToRight).Order()));
    }

    [Fact]
    public void Plan_OfAnHourglassAndGeese_SaysHowEachIsPressed()
    {
        var plan = PressingPlan.For(Of("Mixed", Sides("4", "4"), Sides("4"), "AB", Quarter(0, 0, "ABAB"), Made(0, 1, UnitKind.FlyingGeese, 90, "ABB") with { Column = 1 }) with { Columns = Sides("4", "2") });
        Assert.Contains("Flying geese: press toward the skies.", plan.Lines());
        Assert.Contains(plan.Lines(), line => line.StartsWith("Quarter-square triangles: press the short seams toward ", StringComparison.Ordinal));
        var shorts = plan.UnitSeams.Where(seam => seam.Kind == UnitKind.QuarterSquareTriangle).Skip(1).Select(seam => seam.Toward).Distinct();
        Assert.Single(shorts);
    }

    // Rows in alternate directions; seams that meet pressed opposite ways: American Patchwork & Quilting, "The Perfect 1/4 in Seam".
    [Fact]
    public void Plan_OfANinePatch_AlternatesRowByRow()
    {
        var block = Of("Nine", Equal("2", 3), Equal("2", 3), "AB", [.. Enumerable.Range(0, 9).Select(cell => Plain(cell / 3, cell % 3, cell % 2 == 0 ? "A" : "B"))]);
        var plan = PressingPlan.For(block);
        Assert.Equal((4, 4, 4, 4), (plan.Crossings, plan.Nested, plan.Rows, plan.RowsOneWay));
        var rows = plan.Seams.Where(seam => seam.IsUpright).GroupBy(seam => seam.From).Select(row => Assert.Single(row.Select(seam => seam.Press).Distinct())).ToList();
        Assert.NotEqual(rows[0], rows[1]);
        Assert.Equal(rows[0], rows[2]);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(401)]
    public void Plan_OfTheLargestGrid_NestsEverything(int pieced)
    {
        var block = Of("Grid", Equal("1", 20), Equal("1", 20), "AB", [.. Enumerable.Range(0, 400).Select(cell => cell % pieced == 1
            ? Half(cell / 20, cell % 20, "AB")
            : Plain(cell / 20, cell % 20, "A"))]);
        var plan = PressingPlan.For(block);
        Assert.Equal(plan.Crossings, plan.Nested);
    }

    [Fact]
    public void Plan_OfOneUnit_IsEmpty() => Assert.Empty(PressingPlan.For(Of("One", Sides("3"), Sides("3"), "A", Plain(0, 0, "A"))).Seams);
}
