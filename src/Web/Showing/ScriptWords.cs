using System.Collections.Concurrent;
using System.Reflection;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Text.Unicode;
using Microsoft.AspNetCore.Razor.TagHelpers;

namespace KittingBee.Web.Showing;

/// <summary>
/// Gives each script of a page the texts that it says, where the reader's language says them otherwise than the sources. They stand
/// before it as data, which no browser runs, so that nothing is shown in another language first.
/// </summary>
[HtmlTargetElement("script", Attributes = "src")]
public sealed partial class ScriptWords : TagHelper
{
    private static readonly ConcurrentDictionary<string, IReadOnlySet<string>> Known = new(StringComparer.Ordinal);

    private static readonly JsonSerializerOptions InPage = new() { Encoder = JavaScriptEncoder.Create(UnicodeRanges.All) };

    /// <summary>The scripts' own files, by name.</summary>
    public static IReadOnlyList<string> Files { get; } = [.. Assembly.GetExecutingAssembly().GetManifestResourceNames()
        .Where(name => name.StartsWith(Folder, StringComparison.Ordinal) && name.EndsWith(".js", StringComparison.Ordinal)).Select(name => name[Folder.Length..])];

    private const string Folder = "wwwroot.";

    /// <summary>The texts that a script and those that it imports can say, as they stand in the sources.</summary>
    public static IReadOnlySet<string> Of(string file) => Known.GetOrAdd(file, Read);

    /// <summary>A script as it is served.</summary>
    public static string Source(string file)
    {
        using var reader = new StreamReader(Assembly.GetExecutingAssembly().GetManifestResourceStream(Folder + file) ?? throw new FileNotFoundException($"There is no script {file}."));
        return reader.ReadToEnd();
    }

    /// <inheritdoc/>
    public override void Process(TagHelperContext context, TagHelperOutput output)
    {
        ArgumentNullException.ThrowIfNull(context);
        ArgumentNullException.ThrowIfNull(output);
        var language = Language.Current;
        var file = context.AllAttributes["src"].Value.ToString()!.TrimStart('/');
        var texts = Of(file).Where(text => language.Text(text) != text).ToDictionary(text => text, language.Text);
        if (texts.Count > 0)
        {
            output.PreElement.AppendHtml($"<script type=\"application/json\" data-words>{JsonSerializer.Serialize(texts, InPage)}</script>");
        }
    }

    private static HashSet<string> Read(string file)
    {
        var said = Said().Matches(Source(file));
        return
        [
            .. said.Select(match => match.Groups["text"].Value).Where(text => text.Length > 0),
            .. said.Select(match => match.Groups["thing"].Value).Where(thing => thing.Length > 0).SelectMany(thing => new[] { $"{{0}} {thing}", $"{{0}} {thing}s" }),
            .. said.Select(match => match.Groups["file"].Value).Where(other => other.Length > 0).SelectMany(Of),
        ];
    }

    [GeneratedRegex("""\b(?:say|rich)\("(?<text>[^"\\]+)"|\bmany\([^"`']*?, "(?<thing>[^"\\]+)"\)|^import .* from "\./(?<file>[\w-]+\.js)";""", RegexOptions.Multiline)]
    private static partial Regex Said();
}
