namespace KittingBee.Planning.Blocks;

/// <summary>A block read from JSON, or what is wrong with the text.</summary>
public sealed record BlockReading(Block? Block, IReadOnlyList<Problem> Problems);

/// <summary>Reads and writes a block as JSON; lengths are inches or the text forms.</summary>
public static class BlockJson
{
    /// <summary>Reads a block's form (not yet its geometry); never throws on bad text.</summary>
    public static BlockReading Read(string json) => throw new NotImplementedException();

    /// <summary>Writes a block so that <see cref="Read"/> gives it back exactly.</summary>
    public static string Write(Block block) => throw new NotImplementedException();
}
