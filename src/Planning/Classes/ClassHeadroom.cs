using KittingBee.Planning.Blocks;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Classes;

/// <summary>A fabric with what there is of it.</summary>
/// <param name="Fabric">Its number on the shelf.</param>
/// <param name="Name">Its name.</param>
/// <param name="Request">What the class cuts of it.</param>
/// <param name="Bolt">Length of unwashed bolt bought.</param>
/// <param name="Sheets">Sheets at hand, one number for each of the stock's sheets.</param>
public sealed record FabricAtHand(long Fabric, string Name, CuttingRequest Request, Length Bolt, IReadOnlyList<int> Sheets)
{
    /// <summary>A fabric bought as its plan says: the length in shop increments, whole packs, and all there is on the shelf.</summary>
    public static FabricAtHand AsPlanned(long fabric, string name, CuttingRequest request, CuttingPlan plan) => new(
        fabric,
        name,
        request,
        plan.Buy.Length,
        [
            .. request.Stock.Sheets.Select((sheet, index) =>
            {
                var used = plan.Sheets.Where(recipe => recipe.Sheet == index).Sum(recipe => recipe.Repeat);
                return sheet.Price == 0 && sheet.Available is { } onShelf ? onShelf : (used + sheet.PackSize - 1) / sheet.PackSize * sheet.PackSize;
            }),
        ]);
}

/// <summary>How many more kits of one fabric there is cloth for.</summary>
/// <param name="Fabric">Its number on the shelf.</param>
/// <param name="Name">Its name.</param>
/// <param name="Kits">Further kits that have a plan.</param>
/// <param name="AtMost">Further kits that the floor does not rule out.</param>
public sealed record FabricHeadroom(long Fabric, string Name, int Kits, int AtMost);

/// <summary>How many more kits of one colourway the class can make from what was bought.</summary>
/// <param name="Kits">The least over its fabrics.</param>
/// <param name="AtMost">The least over its fabrics that the floors do not rule out; equal to <paramref name="Kits"/> where that is proved.</param>
/// <param name="Fabrics">Each fabric's own, shortest first: the first ones set the limit.</param>
public sealed record ColourwayHeadroom(int Kits, int AtMost, IReadOnlyList<FabricHeadroom> Fabrics);

/// <summary>Headroom of a whole class: one colourway at a time, because a further kit takes cloth of that colourway alone.</summary>
public static class ClassHeadroom
{
    /// <summary>Searches every fabric of the colourway. A fabric that is not at hand at all leaves no headroom.</summary>
    /// <param name="perKit">The cut list of one kit.</param>
    /// <param name="fabricOfLetter">The colourway: which fabric each letter is cut from.</param>
    /// <param name="atHand">What there is.</param>
    /// <exception cref="ArgumentException">A letter of the cut list has no fabric.</exception>
    public static ColourwayHeadroom For(CutList perKit, IReadOnlyDictionary<string, long> fabricOfLetter, IReadOnlyList<FabricAtHand> atHand)
    {
        var kit = Demand.For(perKit, [new("", fabricOfLetter, 1)], new());
        if (kit.Problems.Count > 0)
        {
            throw new ArgumentException(kit.Problems[0].Message, nameof(fabricOfLetter));
        }

        var fabrics = kit.Fabrics
            .Select(needs => atHand.FirstOrDefault(fabric => fabric.Fabric == needs.Fabric) is { } fabric
                ? Search(fabric, needs.Pieces)
                : new FabricHeadroom(needs.Fabric, "", 0, 0))
            .OrderBy(fabric => fabric.Kits).ToList();
        return new(fabrics[0].Kits, fabrics.Min(fabric => fabric.AtMost), fabrics);
    }

    private static FabricHeadroom Search(FabricAtHand fabric, IReadOnlyList<CutPiece> kit)
    {
        var pieces = fabric.Request.Pieces.ToList();
        var counts = new int[pieces.Count].ToList();
        var wasMissing = false;
        foreach (var piece in kit)
        {
            var index = pieces.FindIndex(line => line.Width == piece.Width && line.Height == piece.Height);
            if (index < 0)
            {
                // A size that the class did not cut of this fabric before: it joins the request with the first further kit.
                (index, wasMissing) = (pieces.Count, true);
                pieces.Add(piece);
                counts.Add(0);
            }

            counts[index] += piece.Count;
        }

        if (wasMissing)
        {
            pieces = [.. pieces.Select((piece, index) => index < fabric.Request.Pieces.Count ? piece with { Count = piece.Count + counts[index] } : piece)];
        }

        var result = Headroom.Search(fabric.Request with { Pieces = pieces }, fabric.Bolt, fabric.Sheets, counts);
        var first = wasMissing ? 1 : 0;
        return result is { Enough: true }
            ? new(fabric.Fabric, fabric.Name, result.Further + first, result.AtMost + first)
            : new(fabric.Fabric, fabric.Name, 0, 0);
    }
}
