using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Identity;
using Microsoft.Extensions.Options;

namespace KittingBee.Web.Sharing;

/// <summary>The teacher's password: what is taken as one, and whether one is right.</summary>
public sealed class TeacherPassword(ShareStore store) : IDisposable
{
    public const int Shortest = 8;

    /// <summary>Far above any sentence; a limit only so that nobody can make the program hash megabytes.</summary>
    public const int Longest = 256;

    // PBKDF2 with HMAC-SHA512; the number of rounds is the one that OWASP's cheat sheet on storing passwords gives for it (from memory).
    private readonly PasswordHasher<TeacherPassword> hasher = new(Options.Create(new PasswordHasherOptions { IterationCount = 210_000 }));

    // Each check is costly on purpose, so they queue: a flood of tries cannot take the machine from the packing table.
    private readonly SemaphoreSlim one = new(1, 1);

    public bool IsSet => store.Setting().PasswordHash.Length > 0;

    /// <summary>What is wrong with a password, in a sentence; null for a good one. Any letters will do: no rule asks for figures or signs.</summary>
    public static string? Problem(string? password)
    {
        var text = Normal(password);
        return new StringInfo(text).LengthInTextElements < Shortest ? Say($"The password is too short: it takes at least {Shortest} letters, figures or signs. A sentence is easy to remember and hard to guess.")
            : text.Length > Longest ? Say($"The password is longer than {Longest} letters. Take a shorter sentence.")
            : CommonPasswords.Contains(text) ? Say("This password is among the ones that are tried first. Take another, such as three words that have nothing to do with each other.")
            : null;
    }

    /// <summary>Puts a good password in place of the old one.</summary>
    public Task Set(string password) => store.KeepPasswordHash(hasher.HashPassword(this, Normal(password)));

    public async Task<bool> IsRight(string? password)
    {
        var text = Normal(password);
        if (text.Length is 0 or > Longest || store.Setting().PasswordHash is not { Length: > 0 } hash)
        {
            return false;
        }

        await one.WaitAsync();
        try
        {
            return hasher.VerifyHashedPassword(this, hash, text) != PasswordVerificationResult.Failed;
        }
        finally
        {
            one.Release();
        }
    }

    public void Dispose() => one.Dispose();

    // The same letters typed on another machine may come composed otherwise. Half a character cannot be normalised; it stays as it is.
    private static string Normal(string? password)
    {
        try
        {
            return (password ?? "").Normalize(NormalizationForm.FormKC);
        }
        catch (ArgumentException)
        {
            return password ?? "";
        }
    }
}
