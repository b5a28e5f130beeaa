using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace KittingBee.Web.Sharing;

/// <summary>Makes what nobody can guess.</summary>
public static class Secrets
{
    // No vowels and no look-alikes, so that a code is no word and is read right the first time.
    private const string CodeLetters = "23456789BCDFGHJKMNPQRSTVWXZ";

    /// <summary>Letters and figures of a code for typing: 27⁸, 38 bits, enough while tries are throttled and the code lives for hours.</summary>
    public const int CodeLength = 8;

    /// <summary>A token for a cookie: 256 random bits.</summary>
    public static string Token() => Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(32));

    /// <summary>The last part of a link that only its holder knows: 144 random bits.</summary>
    public static string Link() => Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(18));

    /// <summary>A code for typing.</summary>
    public static string Code() => RandomNumberGenerator.GetString(CodeLetters, CodeLength);

    /// <summary>A code as it was typed, in whatever case and with whatever between, as it is stored.</summary>
    public static string CodeFrom(string? typed) => string.Concat((typed ?? "").Where(char.IsAsciiLetterOrDigit)).ToUpperInvariant();

    /// <summary>A code as it is shown: in two halves.</summary>
    public static string Shown(string code) => $"{code[..(code.Length / 2)]} {code[(code.Length / 2)..]}";

    /// <summary>What is stored of a token.</summary>
    public static string Hash(string token) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(token)));
}
