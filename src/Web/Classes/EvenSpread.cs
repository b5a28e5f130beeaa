using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>Spreads students over the colourways as evenly as can be.</summary>
public static class EvenSpread
{
    /// <summary>
    /// A colourway for each student who has none, each time the one with fewest students, the first of those; with
    /// <paramref name="everybody"/>, for all anew, in roster order. Waiting students are left alone.
    /// </summary>
    public static IReadOnlyDictionary<long, long> Of(IReadOnlyList<Student> students, IReadOnlyList<Colourway> colourways, bool everybody)
    {
        var chosen = new Dictionary<long, long>();
        if (colourways.Count == 0)
        {
            return chosen;
        }

        var seated = students.Where(student => !student.Waiting).ToList();
        var counts = colourways.ToDictionary(way => way.Id, way => everybody ? 0 : seated.Count(student => student.ColourwayId == way.Id));
        foreach (var student in seated.Where(student => everybody || student.ColourwayId is null))
        {
            var least = colourways.MinBy(way => counts[way.Id])!.Id;
            counts[least]++;
            chosen[student.Id] = least;
        }

        return chosen;
    }
}
