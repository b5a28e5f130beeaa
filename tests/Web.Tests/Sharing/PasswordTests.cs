using KittingBee.Web.Sharing;
using KittingBee.Web.Tests.Storage;

namespace KittingBee.Web.Tests.Sharing;

public sealed class PasswordTests
{
    // Each is on lists of the most used passwords that are published every year (from memory), and has eight letters or more.
    [Theory]
    [InlineData("password")]
    [InlineData("Password1")]
    [InlineData("12345678")]
    [InlineData("123456789")]
    [InlineData("qwertyuiop")]
    [InlineData("sunshine")]
    [InlineData("princess")]
    [InlineData("trustno1")]
    [InlineData("  iloveyou1 ")]
    [InlineData("aaaaaaaaaaaaaaaa")]
    [InlineData("abcdefghij")]
    [InlineData("kitting bee")]
    public void Problem_CommonPassword_IsRefused(string password) =>
        Assert.Contains("tried first", TeacherPassword.Problem(password), StringComparison.Ordinal);

    // ASVS 6.2.1 (at least 8), 6.2.5 (no rules about kinds of letters), 6.2.9 (at least 64 are taken).
    [Theory]
    [InlineData("seven77", true)]
    [InlineData("", true)]
    [InlineData(null, true)]
    [InlineData("ébène-🧵🧵", false)]
    [InlineData("lanternriver", false)]
    [InlineData("a sentence about geese that fly over a mill pond in the rain, twice a year", false)]
    public void Problem_LengthAlone_Decides(string? password, bool refused) => Assert.Equal(refused, TeacherPassword.Problem(password) is not null);

    // ASVS 6.2.4 asks for the top 3,000.
    [Fact]
    public void List_HoldsWhatTheStandardAsksFor() => Assert.Equal(8479, CommonPasswords.Count);

    [Fact]
    public void Problem_LongerThanAnySentence_IsRefusedInWords() =>
        Assert.Contains("longer than 256", TeacherPassword.Problem(string.Concat(Enumerable.Repeat("abc de ", 50))), StringComparison.Ordinal);

    [Fact]
    public async Task IsRight_OnlyForThePasswordSet_InAnyComposition()
    {
        using var guild = new TemporaryGuild();
        var store = new ShareStore(guild.Database);
        using var password = new TeacherPassword(store);
        Assert.False(password.IsSet);
        Assert.False(await password.IsRight(""));
        await password.Set("café on the mill");
        Assert.True(await password.IsRight("café on the mill"));
        Assert.True(await password.IsRight("cafe\u0301 on the mill"));
        Assert.False(await password.IsRight("cafe on the mill"));
        Assert.False(await password.IsRight("café on the mill "));
        Assert.DoesNotContain("mill", store.Setting().PasswordHash, StringComparison.Ordinal);
        var first = store.Setting().PasswordHash;
        await password.Set("café on the mill");
        Assert.NotEqual(first, store.Setting().PasswordHash);
    }
}
