namespace KittingBee.Planning.Blocks;

/// <summary>The published JSON Schema (draft 2020-12) of the form that <see cref="BlockJson"/> reads and writes.</summary>
public static class BlockSchema
{
    private const string Resource = "schemas/block.json";

    /// <summary>The schema's text, for <c>/schemas/block.json</c>.</summary>
    public static string Json { get; } = Read();

    private static string Read()
    {
        using var stream = typeof(BlockSchema).Assembly.GetManifestResourceStream(Resource)
            ?? throw new InvalidOperationException($"The program lacks its part {Resource}.");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
