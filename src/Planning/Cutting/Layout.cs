using System.Text;

namespace KittingBee.Planning.Cutting;

/// <summary>A column of the linear program: one strip of the bolt, or one whole sheet cut in a certain way.</summary>
internal sealed class Layout
{
    private Layout(int ground, IReadOnlyList<Recipe> strips, int[] yield, double cost)
    {
        Ground = ground;
        Strips = strips;
        Yield = yield;
        Cost = cost;
        Height = strips.Sum(strip => strip.Height);
        Key = KeyOf(ground, strips.Count == 1 ? strips[0].Height : 0, yield);
    }

    /// <summary>Index of the ground it lies on.</summary>
    public int Ground { get; }

    /// <summary>One strip on a bolt; the strips of a sheet, equal ones repeated.</summary>
    public IReadOnlyList<Recipe> Strips { get; }

    /// <summary>Pieces by size.</summary>
    public int[] Yield { get; }

    /// <summary>In inches of bolt, or the same in money for a sheet.</summary>
    public double Cost { get; }

    /// <summary>Two layouts of one key are worth the same.</summary>
    public string Key { get; }

    public long Height { get; }

    public static Layout OfStrip(int ground, Recipe strip, double cost) => new(ground, [strip], strip.Yield, cost);

    public static Layout OfSheet(int ground, IReadOnlyList<Recipe> strips, double cost)
    {
        var yield = new int[strips[0].Yield.Length];
        foreach (var strip in strips)
        {
            for (var size = 0; size < yield.Length; size++)
            {
                yield[size] += strip.Yield[size];
            }
        }

        return new Layout(ground, strips, yield, cost);
    }

    /// <summary>With what it gives alone: of hundreds of sizes a layout has few.</summary>
    private static string KeyOf(int ground, long height, int[] yield)
    {
        var key = new StringBuilder($"{ground}:{height}");
        for (var size = 0; size < yield.Length; size++)
        {
            if (yield[size] > 0)
            {
                key.Append(' ').Append(size).Append('x').Append(yield[size]);
            }
        }

        return key.ToString();
    }
}
