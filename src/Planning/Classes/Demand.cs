using KittingBee.Planning.Blocks;
using KittingBee.Planning.Cutting;

namespace KittingBee.Planning.Classes;

/// <summary>Kits of one colourway.</summary>
/// <param name="Colourway">Its name.</param>
/// <param name="FabricOfLetter">Which fabric on the shelf (by its number) each letter is cut from.</param>
/// <param name="Kits">Students, spares and samples in this colourway together; at least 0.</param>
public sealed record ColourwayKits(string Colourway, IReadOnlyDictionary<string, long> FabricOfLetter, int Kits);

/// <summary>All the pieces that a class needs of one real fabric.</summary>
/// <param name="Fabric">The fabric's number on the shelf.</param>
/// <param name="Pieces">Equal sizes are one line, counts summed over the colourways, spare pieces included.</param>
public sealed record FabricDemand(long Fabric, IReadOnlyList<CutPiece> Pieces);

/// <summary>Demand per real fabric, or what is missing (a letter without a fabric).</summary>
public sealed record DemandResult(IReadOnlyList<FabricDemand> Fabrics, IReadOnlyList<Problem> Problems);

/// <summary>How many pieces to cut beyond the need of each line.</summary>
/// <param name="Percent">Flat percentage, rounded up per line; 0 for none.</param>
/// <param name="MiscutShare">Share of pieces that come out wrong, for the promise; null for none.</param>
/// <param name="Promise">Probability that the whole class has enough.</param>
public sealed record SparePieces(decimal Percent = 0m, decimal? MiscutShare = null, decimal Promise = 0.95m);

/// <summary>Sums a class's cut lists into demand per fabric.</summary>
public static class Demand
{
    /// <summary>Demand of all kits together.</summary>
    public static DemandResult For(CutList perKit, IReadOnlyList<ColourwayKits> kits, SparePieces spares) => throw new NotImplementedException();
}
