using System.Text.RegularExpressions;
using KittingBee.Web.Showing;

namespace KittingBee.Web.Tests.Languages;

/// <summary>The language files and the program say the same texts: none is missing, none is left over, and each keeps its values.</summary>
public sealed partial class LanguageFileTests
{
    public static TheoryData<string> Translations => [.. Language.Offered.Where(language => !language.Tag.StartsWith("en", StringComparison.Ordinal)).Select(language => language.Tag)];

    [Fact]
    public void EveryText_IsWrittenWhereItIsSaid() =>
        Assert.True(SaidTexts.All.Unknown.Count == 0, $"Said but not written in place, so that no language file can have it (say each text on its own): {string.Join(", ", SaidTexts.All.Unknown.Distinct())}");

    [Fact]
    public void Translations_AreThere() => Assert.Contains("de", Translations.Select(row => row.Data));

    [Theory]
    [MemberData(nameof(Translations))]
    public void Translation_HasEveryText(string tag)
    {
        var missing = SaidTexts.All.Texts.Except(Language.Find(tag).Texts.Keys).Where(text => text.Any(char.IsLetter)).Order(StringComparer.Ordinal).ToList();
        Assert.True(missing.Count == 0, $"{tag}.json lacks:\n{string.Join('\n', missing.Select(text => System.Text.Json.JsonSerializer.Serialize(text, Plain)))}");
    }

    [Theory]
    [MemberData(nameof(Translations))]
    [InlineData("en-US")]
    public void File_HasNoTextThatIsNotSaid(string tag)
    {
        var stale = Language.Find(tag).Texts.Keys.Except(SaidTexts.All.Texts).ToList();
        Assert.True(stale.Count == 0, $"{tag}.json has what nobody says:\n{string.Join('\n', stale)}");
    }

    [Theory]
    [MemberData(nameof(Translations))]
    public void Translation_KeepsTheValues(string tag)
    {
        foreach (var (key, text) in Language.Find(tag).Texts)
        {
            Assert.True(Values(key).SequenceEqual(Values(text)), $"{tag}.json: “{key}” and “{text}” do not have the same values.");
            Assert.False(string.IsNullOrWhiteSpace(text), $"{tag}.json says nothing for “{key}”.");
        }
    }

    [Fact]
    public void EverySpelling_IsOfAWordThatIsSaid()
    {
        foreach (var spelling in Language.Find("en-US").Spellings.Keys)
        {
            Assert.Contains(SaidTexts.All.Texts, text => text.Contains(spelling, StringComparison.OrdinalIgnoreCase));
        }
    }

    private static readonly System.Text.Json.JsonSerializerOptions Plain = new() { Encoder = System.Text.Encodings.Web.JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    private static IEnumerable<string> Values(string text) => Value().Matches(text).Select(match => match.Value).Distinct().Order(StringComparer.Ordinal);

    [GeneratedRegex(@"\{[0-9]+[^}]*\}")]
    private static partial Regex Value();
}
