using System.Collections.Concurrent;
using System.Globalization;
using System.Reflection;
using System.Text.Json;
using System.Text.RegularExpressions;

namespace KittingBee.Web.Showing;

/// <summary>
/// A language or spelling that the program speaks: a file in <c>Languages</c>, built into the program. The English text in
/// the sources is the key of each text; what a file does not have is shown as it stands in the sources, respelled where the file
/// gives spellings.
/// </summary>
public sealed partial class Language
{
    /// <summary>The sources' own: English with British spelling.</summary>
    public const string OwnTag = "en-GB";

    private static readonly ConcurrentDictionary<string, Language> All = ReadAll();

    private readonly ConcurrentDictionary<string, string> respelled = new(StringComparer.Ordinal);

    private Language(string tag, LanguageFile file)
    {
        Tag = tag;
        OwnName = file.Name;
        Texts = file.Texts ?? [];
        Spellings = file.Spellings ?? [];
        Culture = CultureInfo.GetCultureInfo(tag);
    }

    /// <summary>BCP 47 tag, as in a page's <c>lang</c> and the guild's settings.</summary>
    public string Tag { get; }

    /// <summary>Its name in itself.</summary>
    public string OwnName { get; }

    /// <summary>How numbers and dates are written.</summary>
    public CultureInfo Culture { get; }

    /// <summary>Its text for each text of the sources.</summary>
    public IReadOnlyDictionary<string, string> Texts { get; }

    /// <summary>Parts of words that are spelt otherwise, in small letters.</summary>
    public IReadOnlyDictionary<string, string> Spellings { get; }

    /// <summary>All that there are, by name.</summary>
    public static IReadOnlyList<Language> Offered { get; } = [.. All.Values.OrderBy(language => language.OwnName, StringComparer.Ordinal)];

    /// <summary>The language of the page that is being made.</summary>
    public static Language Current => Find(CultureInfo.CurrentUICulture.Name);

    /// <summary>The language of this tag, or the sources' own where there is none.</summary>
    public static Language Find(string tag) => All.GetValueOrDefault(tag) ?? All[OwnTag];

    /// <summary>Takes in a language that is not built in and not offered, to see what a page says in it.</summary>
    internal static void Learn(string tag, Dictionary<string, string> texts) => All[tag] = new(tag, new(tag, null, texts));

    /// <summary>The text of this language for a text of the sources; both with places for values.</summary>
    public string Text(string key) => Texts.GetValueOrDefault(key) ?? (Spellings.Count == 0 ? key : respelled.GetOrAdd(key, Respell));

    private string Respell(string text) => Words().Replace(text, word =>
    {
        var spelt = word.Value;
        foreach (var (from, to) in Spellings)
        {
            spelt = spelt.Replace(from, to, StringComparison.Ordinal).Replace(Capital(from), Capital(to), StringComparison.Ordinal);
        }

        return spelt;
    });

    private static string Capital(string word) => char.ToUpperInvariant(word[0]) + word[1..];

    private static ConcurrentDictionary<string, Language> ReadAll()
    {
        const string Prefix = "languages/";
        var assembly = Assembly.GetExecutingAssembly();
        return new(assembly.GetManifestResourceNames()
            .Where(name => name.StartsWith(Prefix, StringComparison.Ordinal))
            .Select(name =>
            {
                using var stream = assembly.GetManifestResourceStream(name)!;
                var file = JsonSerializer.Deserialize<LanguageFile>(stream, JsonSerializerOptions.Web) ?? throw new InvalidDataException($"{name} is empty.");
                return KeyValuePair.Create(name[Prefix.Length..^".json".Length], new Language(name[Prefix.Length..^".json".Length], file));
            }), StringComparer.OrdinalIgnoreCase);
    }

    [GeneratedRegex(@"\p{L}+")]
    private static partial Regex Words();

    private sealed record LanguageFile(string Name, Dictionary<string, string>? Spellings, Dictionary<string, string>? Texts);
}
