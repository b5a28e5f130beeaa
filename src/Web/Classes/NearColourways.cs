using System.Globalization;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>Finds the colourway that a slip of the keyboard may have meant.</summary>
public static class NearColourways
{
    private const int LongestName = 60;

    /// <summary>
    /// The colourway nearest to what was typed, or null: one slip for every three letters of its name, at most two. A text with a
    /// digit or an at sign is a telephone number or an address, and never meant.
    /// </summary>
    public static Colourway? Of(string typed, IReadOnlyList<Colourway> colourways) =>
        typed.Length is 0 or > LongestName || typed.Any(letter => letter == '@' || char.IsDigit(letter))
            ? null
            : colourways
                .Select(way => (Way: way, Slips: Slips(Plain(typed), Plain(way.Name))))
                .Where(near => near.Slips <= Math.Min(2, near.Way.Name.Length / 3))
                .OrderBy(near => near.Slips)
                .Select(near => near.Way)
                .FirstOrDefault();

    private static string Plain(string text) => text.Trim().ToLower(CultureInfo.InvariantCulture);

    /// <summary>The fewest letters to put in, take out, change or swap with their neighbour (optimal string alignment distance).</summary>
    private static int Slips(string one, string other)
    {
        var slips = new int[one.Length + 1, other.Length + 1];
        for (var row = 0; row <= one.Length; row++)
        {
            for (var column = 0; column <= other.Length; column++)
            {
                slips[row, column] = row == 0 || column == 0 ? row + column : Math.Min(
                    Math.Min(slips[row - 1, column], slips[row, column - 1]) + 1,
                    slips[row - 1, column - 1] + (one[row - 1] == other[column - 1] ? 0 : 1));
                if (row > 1 && column > 1 && one[row - 1] == other[column - 2] && one[row - 2] == other[column - 1])
                {
                    slips[row, column] = Math.Min(slips[row, column], slips[row - 2, column - 2] + 1);
                }
            }
        }

        return slips[one.Length, other.Length];
    }
}
