using System.Reflection;
using System.Text.Json;
using KittingBee.Web.Pages.Classes;
using KittingBee.Web.Pages.Shelf;

namespace KittingBee.Web.Demonstration;

/// <summary>The guild's settings, and which of the starting blocks it has.</summary>
public sealed record GuildSeed(string Name, string Units, string Paper, string Currency, IReadOnlyList<string> Blocks, IReadOnlyList<TypedSeed> TypedBlocks);

/// <summary>A pattern whose cut list is typed.</summary>
public sealed record TypedSeed(string Name, IReadOnlyList<string> Lines);

/// <summary>The shelf as the demonstration's files give it: the same forms that a person fills in.</summary>
public sealed record ShelfSeed(IReadOnlyList<FabricForm> Fabrics, IReadOnlyList<PieceSeed> Pieces);

/// <summary>Cloth on hand.</summary>
public sealed record PieceSeed(string Fabric, string Kind, string Width, string Length, string Count, string Note);

/// <summary>A class with its people and what happened to it.</summary>
public sealed record ClassSeed(
    string Block,
    ClassForm Details,
    PriceSeed Prices,
    IReadOnlyList<ColourwaySeed> Colourways,
    IReadOnlyList<string> Roster,
    bool Printed,
    IReadOnlyList<PurchaseSeed> Purchases,
    bool HandedOver,
    IReadOnlyList<LeftoverSeed> Leftovers);

/// <summary>A class's costs and fee.</summary>
public sealed record PriceSeed(string Notions, string Packaging, string LabourPerHour, string FixedCosts, string Fee, string TaxPercent, string MarginPercent);

/// <summary>A colourway by the names of its fabrics.</summary>
public sealed record ColourwaySeed(string Name, IReadOnlyDictionary<string, string> Fabrics);

/// <summary>Cloth bought.</summary>
public sealed record PurchaseSeed(string Fabric, string Length, string Paid);

/// <summary>Cloth left over.</summary>
public sealed record LeftoverSeed(string Fabric, string Width, string Length, bool ToShelf);

/// <summary>Reads the demonstration's files, which are built into the program.</summary>
public static class DemonstrationData
{
    private const string Prefix = "seed-demo/";

    private static readonly JsonSerializerOptions Options = new(JsonSerializerDefaults.Web);

    public static GuildSeed Guild() => Read<GuildSeed>(Prefix + "guild.json");

    public static ShelfSeed Shelf() => Read<ShelfSeed>(Prefix + "shelf.json");

    public static IReadOnlyList<ClassSeed> Classes() => [.. Files("classes/").Select(Read<ClassSeed>)];

    private static IEnumerable<string> Files(string folder) => Assembly.GetExecutingAssembly().GetManifestResourceNames()
        .Where(name => name.StartsWith(Prefix + folder, StringComparison.Ordinal))
        .Order(StringComparer.Ordinal);

    private static T Read<T>(string name) => JsonSerializer.Deserialize<T>(Text(name), Options)
        ?? throw new InvalidDataException($"{name} is empty.");

    private static string Text(string name)
    {
        using var stream = Assembly.GetExecutingAssembly().GetManifestResourceStream(name)
            ?? throw new InvalidDataException($"{name} is not built into the program.");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
