using KittingBee.Planning.Blocks;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Classes;

/// <summary>Kits of one colourway.</summary>
/// <param name="Colourway">Its name.</param>
/// <param name="FabricOfLetter">Which fabric on the shelf (by its number) each letter is cut from.</param>
/// <param name="Kits">Students, spares and samples in this colourway together; at least 0.</param>
/// <param name="Bag">What is cut for one of them, where that is not the class's own cut list; see <see cref="Formats.BagLists"/>.</param>
public sealed record ColourwayKits(string Colourway, IReadOnlyDictionary<string, long> FabricOfLetter, int Kits, CutList? Bag = null);

/// <summary>All the pieces that a class needs of one real fabric.</summary>
/// <param name="Fabric">The fabric's number on the shelf.</param>
/// <param name="Pieces">Equal sizes are one line, counts summed over the colourways, spare pieces included.</param>
public sealed record FabricDemand(long Fabric, IReadOnlyList<CutPiece> Pieces);

/// <summary>Demand per real fabric, or what is missing (a letter without a fabric).</summary>
public sealed record DemandResult(IReadOnlyList<FabricDemand> Fabrics, IReadOnlyList<Problem> Problems);

/// <summary>How many pieces to cut beyond the need of each line. Where a percentage and a promise are both given, the larger number counts.</summary>
/// <param name="Percent">Flat percentage, 0 to 100, rounded up per line; 0 for none.</param>
/// <param name="MiscutShare">Share of pieces that come out wrong, 0 to <see cref="SpareCount.MostMiscut"/>, for the promise; null for none.</param>
/// <param name="Promise">Probability that the whole class has enough of each line, above 0 and at most <see cref="SpareCount.MostPromised"/>.</param>
public sealed record SparePieces(decimal Percent = 0m, decimal? MiscutShare = null, decimal Promise = 0.95m);

/// <summary>Sums a class's cut lists into demand per fabric.</summary>
public static class Demand
{
    /// <summary>The most pieces of one size of one fabric. No class comes near it; a slip of the keyboard does.</summary>
    public const int MostPieces = 1_000_000;

    /// <summary>
    /// Demand of all kits together, by the fabric's number, tallest pieces first. Each line is named for the ticket by the letters
    /// and the size, in the given <paramref name="style"/>. Where there are problems there is no demand.
    /// </summary>
    public static DemandResult For(CutList perKit, IReadOnlyList<ColourwayKits> kits, SparePieces spares, LengthStyle style = LengthStyle.Eighths)
    {
        var problems = Check(perKit, kits, spares).ToList();
        if (problems.Count > 0)
        {
            return new([], problems);
        }

        var needs =
            from colourway in kits
            where colourway.Kits > 0
            from fabric in (colourway.Bag ?? perKit).Fabrics
            from piece in fabric.Pieces
            group (fabric.Letter, Count: (long)piece.Count * colourway.Kits)
                by (Fabric: colourway.FabricOfLetter[fabric.Letter], piece.Height, piece.Width);

        var lines = needs.OrderBy(line => line.Key.Fabric).ThenByDescending(line => line.Key.Height).ThenByDescending(line => line.Key.Width)
            .Select(line => (line.Key.Fabric, line.Key.Width, line.Key.Height, Letters: line.Select(part => part.Letter).Distinct().Order(StringComparer.Ordinal), Need: line.Sum(part => part.Count)))
            .ToList();

        var fabrics = new List<FabricDemand>();
        foreach (var fabric in lines.GroupBy(line => line.Fabric))
        {
            var pieces = new List<CutPiece>();
            foreach (var line in fabric)
            {
                var name = Unused($"{string.Join(", ", line.Letters)}: {PieceNames.Size(line.Width, line.Height, style)}", pieces);
                if (line.Need > MostPieces || Spares((int)line.Need, spares) is var extra && line.Need + extra > MostPieces)
                {
                    problems.Add(new("kits", $"The class needs {line.Need:N0} pieces of “{name}”; the most is {MostPieces:N0}. Check the number of kits and the blocks in each."));
                    continue;
                }

                pieces.Add(new(name, line.Width, line.Height, (int)line.Need + extra));
            }

            fabrics.Add(new(fabric.Key, pieces));
        }

        return problems.Count > 0 ? new([], problems) : new(fabrics, []);
    }

    private static int Spares(int need, SparePieces spares) => Math.Max(
        SpareCount.ByPercent(need, spares.Percent),
        spares.MiscutShare is { } share ? SpareCount.ByPromise(need, share, spares.Promise) : 0);

    private static string Unused(string name, List<CutPiece> pieces)
    {
        var taken = pieces.Count(piece => piece.Name == name || piece.Name.StartsWith(name + " (", StringComparison.Ordinal));
        return taken == 0 ? name : $"{name} ({taken + 1})";
    }

    private static IEnumerable<Problem> Check(CutList perKit, IReadOnlyList<ColourwayKits> kits, SparePieces spares)
    {
        if (perKit.Fabrics.All(fabric => fabric.Pieces.Count == 0))
        {
            yield return new("cutList", "The cut list has no pieces. Draw a block or type what is to be cut.");
        }

        if (kits.All(colourway => colourway.Kits == 0))
        {
            yield return new("kits", "There are no kits to make yet. Add students, spare kits or a sample.");
        }

        for (var index = 0; index < kits.Count; index++)
        {
            var colourway = kits[index];
            if (colourway.Kits < 0)
            {
                yield return new($"kits[{index}].kits", $"Colourway “{colourway.Colourway}” has {colourway.Kits} kits. Give 0 or more.");
            }

            if (colourway.Kits <= 0)
            {
                continue;
            }

            foreach (var fabric in perKit.Fabrics.Where(fabric => fabric.Pieces.Count > 0 && !colourway.FabricOfLetter.ContainsKey(fabric.Letter)))
            {
                yield return new(
                    $"kits[{index}].fabricOfLetter.{fabric.Letter}",
                    $"Colourway “{colourway.Colourway}” has no fabric for letter {fabric.Letter} ({fabric.Name}). Choose one from the shelf, or move its students to another colourway.");
            }
        }

        if (spares.Percent is < 0 or > 100)
        {
            yield return new("spares.percent", $"Spare pieces of {spares.Percent} % cannot be planned. Give 0 to 100.");
        }

        if (spares.MiscutShare is < 0 or > SpareCount.MostMiscut)
        {
            yield return new("spares.miscutShare", $"A share of miscuts of {spares.MiscutShare} cannot be planned for. Give 0 to {SpareCount.MostMiscut} (1 in 4).");
        }

        if (spares.MiscutShare is not null && spares.Promise is <= 0 or > SpareCount.MostPromised)
        {
            yield return new("spares.promise", $"A promise of {spares.Promise} cannot be kept. Give a share above 0 and at most {SpareCount.MostPromised}, such as 0.95.");
        }
    }
}
