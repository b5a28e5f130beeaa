using System.Collections.Concurrent;
using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Formats;

namespace KittingBee.Web.Classes;

/// <summary>What the bags of one colourway hold.</summary>
/// <param name="List">As a cut list; see <see cref="BagLists"/>.</param>
/// <param name="HandedOut">By fabric, what its students cut themselves.</param>
public sealed record ColourwayBag(CutList List, IReadOnlyDictionary<long, HandedOut> HandedOut);

/// <summary>A format that was chosen for a fabric and cannot be, with the reason.</summary>
public sealed record Misfit(long FabricId, Sentence Why);

/// <summary>
/// Decides what goes into the bags: the one place that does so. What was worked out before is not worked out again; the same
/// request always gives the same answer.
/// </summary>
public sealed class FormatBook
{
    private const int MostInMemory = 2000;

    private readonly ConcurrentDictionary<string, (HandedOut? Out, Sentence? Why)> outs = new(StringComparer.Ordinal);

    /// <summary>The bags of every colourway, and what stands against a format that was chosen: that fabric is cut into pieces until another is.</summary>
    public (IReadOnlyDictionary<long, ColourwayBag> Bags, IReadOnlyList<Misfit> Misfits) Bags(ClassMaterials materials, CutList cutList)
    {
        var misfits = new List<Misfit>();
        var refused = new HashSet<long>();
        var found = materials.Colourways.ToDictionary(way => way.Id, _ => new Dictionary<long, HandedOut>());
        foreach (var choice in materials.Formats.Choices.Values)
        {
            foreach (var way in materials.Colourways)
            {
                var letters = way.FabricOfLetter.Where(pair => pair.Value == choice.FabricId).Select(pair => pair.Key).ToHashSet();
                var pieces = BagLists.PiecesOf(cutList, letters, materials.Habits.Style);
                if (pieces.Count == 0 || !materials.Fabrics.ContainsKey(choice.FabricId) || refused.Contains(choice.FabricId))
                {
                    continue;
                }

                var (thing, why) = choice.IsBought && materials.PackPriceProblem(choice.Format) is { } unpriced
                    ? (null, unpriced)
                    : Out(materials.FormatRequest(choice.FabricId, pieces, choice.IsBought), choice.Format);
                if (thing is not null)
                {
                    found[way.Id][choice.FabricId] = thing;
                    continue;
                }

                refused.Add(choice.FabricId);
                misfits.Add(new(choice.FabricId, why!));
            }
        }

        return (
            materials.Colourways.ToDictionary(way => way.Id, way =>
            {
                var handedOut = found[way.Id].Where(pair => !refused.Contains(pair.Key)).ToDictionary();
                return new ColourwayBag(BagLists.For(cutList, way.FabricOfLetter, handedOut, materials.Habits.Style), handedOut);
            }),
            misfits);
    }

    private (HandedOut? Out, Sentence? Why) Out(FormatRequest request, string format)
    {
        var key = StoredJson.Hash(StoredJson.Write(request) + format);
        if (outs.TryGetValue(key, out var known))
        {
            return known;
        }

        if (outs.Count >= MostInMemory)
        {
            outs.Clear();
        }

        return outs[key] = HandedOut.Of(request, format);
    }
}
