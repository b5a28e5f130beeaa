using System.Text;

namespace KittingBee.Web.Tests.Fuzzing;

/// <summary>Makes bad input out of good: flips, cuts, doubles and splices bytes, and puts in what has broken readers before.</summary>
internal sealed class Mutator(int seed)
{
    private const int Longest = 200_000;

    private static readonly byte[][] Trouble =
    [
        .. new[]
        {
            "\0", "\u00A0", "\u2044", "½", "⅓", "″", "\uFEFF", "\u202E", "\uD83E\uDDF5", "é", "-", "--", "0", "-1", "1e400", "1e-400", "99999999999999999999", "2147483648", "-9223372036854775809", "1/0", "0/1", "4 1/2/3",
            "NaN", "∞", "null", "true", "[]", "{}", "[[[[[[[[[[", "{\"a\":{\"a\":{\"a\":", "\"", "'", "\\", "\\u0000", "\\uD800", ",", ";", "\t", "\r", "\n", "\r\n\r\n", "=1+1", "@", "<", "</", "]]>", "&lt;", "<!DOCTYPE x [<!ENTITY a \"b\">]>",
            "x", "×", "@ 2 x", "squares", "(((((", "%s", "{0}", "$(", "../", "C:\\",
        }.Select(Encoding.UTF8.GetBytes),
        [0xFF], [0xFE], [0xC0, 0x80], [0xED, 0xA0, 0x80], [0xF4, 0x90, 0x80, 0x80], [0x80],
    ];

    private readonly Random random = new(seed);

    public byte[] Next(IReadOnlyList<byte[]> good)
    {
        var bytes = good[random.Next(good.Count)].ToList();
        for (var changes = 1 + random.Next(random.Next(1, 12)); changes > 0; changes--)
        {
            Change(bytes, good);
        }

        return bytes.Count > Longest ? [.. bytes.Take(Longest)] : [.. bytes];
    }

    private void Change(List<byte> bytes, IReadOnlyList<byte[]> good)
    {
        var at = random.Next(bytes.Count + 1);
        var length = random.Next(1 + Math.Min(bytes.Count - at, 1 << random.Next(10)));
        switch (random.Next(8))
        {
            case 0 when at < bytes.Count:
                bytes[at] ^= (byte)(1 << random.Next(8));
                break;
            case 1 when at < bytes.Count:
                bytes[at] = (byte)random.Next(256);
                break;
            case 2:
                bytes.RemoveRange(at, length);
                break;
            case 3:
                bytes.InsertRange(random.Next(bytes.Count + 1), bytes.GetRange(at, length));
                break;
            case 4:
                var other = good[random.Next(good.Count)];
                var from = random.Next(other.Length + 1);
                bytes.InsertRange(at, other.Skip(from).Take(random.Next(64)));
                break;
            case 5:
                bytes.RemoveRange(at, bytes.Count - at);
                break;
            case 6 when length > 0 && bytes.Count < Longest / 2:
                bytes.InsertRange(at, Enumerable.Repeat(bytes.GetRange(at, Math.Min(length, 20)), 1 + random.Next(200)).SelectMany(part => part));
                break;
            default:
                bytes.RemoveRange(at, random.Next(2) * length);
                bytes.InsertRange(at, Trouble[random.Next(Trouble.Length)]);
                break;
        }
    }
}
