using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Blocks;

/// <summary>The best pressing plan of a small block without partial seams, found by trying every choice.</summary>
internal static class PressingByTryingAll
{
    /// <summary>
    /// Every choice of sides, scored anew from the assembly and the patches alone: nests, then few toward pieced units, then rows
    /// one way. A seam inside a unit is where two of its patches touch. Flipped corners and skies lie away from the middle patch;
    /// every other seam inside a unit is free.
    /// </summary>
    public static (int Nested, int Toward, int OneWay, int Crossings) Best(Block block)
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

    public static int FreeSeamsInside(Block block) => SeamsInside(block, BlockPatches.Of(block)).Count(seam => seam.Fixed is null);
}
