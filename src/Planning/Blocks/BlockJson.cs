using System.Text;
using System.Text.Json;

namespace KittingBee.Planning.Blocks;

/// <summary>A block read from JSON, or what is wrong with the text.</summary>
public sealed record BlockReading(Block? Block, IReadOnlyList<Problem> Problems);

/// <summary>Reads and writes a block as JSON; lengths are inches or the text forms.</summary>
public static class BlockJson
{
    /// <summary>The version that <see cref="Write(Block)"/> writes; a text without one counts as version 1.</summary>
    public const int Version = 1;

    /// <summary>Longest text that is read, in characters.</summary>
    public const int LongestText = 1_000_000;

    private static readonly JsonDocumentOptions Options = new() { MaxDepth = 32, AllowDuplicateProperties = false };

    private static readonly JsonWriterOptions Indented = new() { Indented = true };

    /// <summary>Reads a block's form (not yet its geometry); never throws on bad text.</summary>
    public static BlockReading Read(string json)
    {
        if (json.Length > LongestText)
        {
            return new(null, [new("", $"The text has {json.Length} characters; a block has at most {LongestText}.")]);
        }

        try
        {
            using var document = JsonDocument.Parse(json, Options);
            return Read(document.RootElement);
        }
        catch (JsonException fault)
        {
            return new(null, [new("", $"The text is not JSON: line {(fault.LineNumber ?? 0) + 1}, place {(fault.BytePositionInLine ?? 0) + 1}. Check the quotes, commas and brackets there.")]);
        }
        catch (InvalidOperationException)
        {
            return new(null, [HalfACharacter("")]);
        }
    }

    /// <summary>Reads a block that is part of a larger text; <paramref name="path"/> leads the fields of the problems.</summary>
    public static BlockReading Read(JsonElement element, string path = "")
    {
        var reader = new BlockJsonReader();
        try
        {
            var block = reader.Block(element, path);
            return new(reader.Problems.Count == 0 ? block : null, reader.Problems);
        }
        catch (InvalidOperationException)
        {
            return new(null, [.. reader.Problems, HalfACharacter(path.TrimEnd('.'))]);
        }
    }

    /// <summary>A text such as <c>"\ud800"</c> is JSON by its grammar and no text; the library throws when it is asked for.</summary>
    internal static Problem HalfACharacter(string field) =>
        new(field, "A name in it holds half a character, such as \\ud800 alone. Type that name again.");

    /// <summary>Writes a block so that <see cref="Read(string)"/> gives it back exactly.</summary>
    public static string Write(Block block)
    {
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream, Indented))
        {
            BlockJsonWriter.Write(writer, block, outermost: true);
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    /// <summary>Writes a block into a larger text.</summary>
    public static void Write(Utf8JsonWriter writer, Block block) => BlockJsonWriter.Write(writer, block, outermost: true);
}
