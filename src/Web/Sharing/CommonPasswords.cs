using System.Buffers.Binary;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace KittingBee.Web.Sharing;

/// <summary>
/// The passwords that are tried first. The list is the one of 20,000 common passwords that Django 3.2 ships (taken
/// from counts in leaked passwords; BSD licence), those of eight letters and more: 8,479. It is kept as the first eight bytes
/// of each one's SHA-256, in order, because many of the words are names, brands or worse.
/// </summary>
public static class CommonPasswords
{
    private const int HashLength = 8;

    private static readonly byte[] Hashes = Read();

    public static int Count => Hashes.Length / HashLength;

    /// <summary>True for a word of the list in any case, and for one that a list cannot hold: one sign over and over, or a run of the alphabet, the figures or the keyboard.</summary>
    public static bool Contains(string password)
    {
        var word = password.Trim().ToLower(CultureInfo.InvariantCulture);
        return IsListed(word) || word.Distinct().Count() <= 2 || Runs.Any(run => run.Contains(word, StringComparison.Ordinal))
            || word.Replace(" ", "", StringComparison.Ordinal).StartsWith("kittingbee", StringComparison.Ordinal) && word.Length <= "kittingbee".Length + 4;
    }

    private static string[] Runs { get; } =
    [
        "abcdefghijklmnopqrstuvwxyzabcdefghijklmnopqrstuvwxyz", "zyxwvutsrqponmlkjihgfedcba", "01234567890123456789012345678901234567890", "09876543210987654321",
        "qwertyuiopasdfghjklzxcvbnm", "qwertzuiopasdfghjklyxcvbnm", "azertyuiopqsdfghjklmwxcvbn",
    ];

    private static bool IsListed(string word)
    {
        var hash = SHA256.HashData(Encoding.UTF8.GetBytes(word));
        var sought = BinaryPrimitives.ReadUInt64BigEndian(hash);
        var (low, high) = (0, Count - 1);
        while (low <= high)
        {
            var middle = (low + high) / 2;
            var found = BinaryPrimitives.ReadUInt64BigEndian(Hashes.AsSpan(middle * HashLength));
            if (found == sought)
            {
                return true;
            }

            (low, high) = found < sought ? (middle + 1, high) : (low, middle - 1);
        }

        return false;
    }

    private static byte[] Read()
    {
        using var stream = typeof(CommonPasswords).Assembly.GetManifestResourceStream("common-passwords.bin")!;
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        return bytes.ToArray();
    }
}
