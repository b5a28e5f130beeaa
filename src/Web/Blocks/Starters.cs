using KittingBee.Planning.Blocks;

namespace KittingBee.Web.Blocks;

/// <summary>A traditional block to start from.</summary>
/// <param name="Key">Its name in addresses: <c>churn-dash</c>.</param>
/// <param name="Json">As <see cref="BlockJson"/> reads it.</param>
public sealed record Starter(string Key, Block Block, string Json);

/// <summary>The traditional blocks that come with the program.</summary>
public static class Starters
{
    private const string Folder = "seed-demo/blocks/";

    private static readonly Lazy<IReadOnlyList<Starter>> Read = new(ReadAll);

    /// <summary>All of them, those with fewest units first.</summary>
    public static IReadOnlyList<Starter> All => Read.Value;

    public static Starter? Find(string? key) => All.FirstOrDefault(starter => starter.Key == key);

    private static IReadOnlyList<Starter> ReadAll()
    {
        var assembly = System.Reflection.Assembly.GetExecutingAssembly();
        return [.. assembly.GetManifestResourceNames()
            .Select(name => (Name: name, Path: name.Replace('\\', '/')))
            .Where(resource => resource.Path.StartsWith(Folder, StringComparison.Ordinal))
            .Select(resource =>
            {
                using var reader = new StreamReader(assembly.GetManifestResourceStream(resource.Name)!);
                var json = reader.ReadToEnd();
                var block = BlockJson.Read(json).Block ?? throw new InvalidDataException($"{resource.Path} is not a block.");
                return new Starter(Path.GetFileNameWithoutExtension(resource.Path), block, json);
            })
            .OrderBy(starter => starter.Block.Units.Count)
            .ThenBy(starter => starter.Block.Name, StringComparer.Ordinal)];
    }
}
