using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Packing;

/// <summary>An invented class to pack: kits to claim, four lines in each bag, in two fabrics.</summary>
internal static class ExampleClass
{
    // Finished 8 in: two plain 4 in squares, two half-square triangles from one pair of squares.
    private const string Block = """
        { "name": "Split four-patch", "columns": [4, 4], "rows": [4, 4],
          "fabrics": [ { "letter": "A", "name": "ground" }, { "letter": "B", "name": "figure" } ],
          "units": [
            { "row": 0, "column": 0, "kind": "plain", "fabrics": ["A"] },
            { "row": 0, "column": 1, "kind": "half-square-triangle", "fabrics": ["A", "B"] },
            { "row": 1, "column": 0, "kind": "half-square-triangle", "fabrics": ["A", "B"] },
            { "row": 1, "column": 1, "kind": "plain", "fabrics": ["B"] } ] }
        """;

    /// <summary>Stores it; gives its number.</summary>
    public static async Task<long> Store(GuildHost guild, int kits)
    {
        await guild.Get<GuildStore>().Save(new Guild { Name = "Millpond Piecers", Units = "inches", Paper = "letter", Currency = "USD", Version = guild.Get<GuildStore>().Read().Version });
        var letters = new Dictionary<string, long>();
        foreach (var (letter, name, colour) in new[] { ("A", "Oat", "#e8dcc0"), ("B", "Rust", "#a4502b") })
        {
            letters[letter] = await guild.Get<FabricStore>().Add(new Fabric
            {
                Name = name, Colour = colour, UsableWidth = Length.FromInches(42), Price = 12m, Increment = Length.FromInches(4, 1, 2), Minimum = Length.FromInches(4, 1, 2),
            });
        }

        var id = await guild.Get<ClassStore>().Add(new ClassRecord { Title = "Evening class", BlockName = "Split four-patch", BlockJson = Block, KitsOnly = kits, LabourPerHour = 15m, Notions = 0.5m });
        await guild.Get<ColourwayStore>().Add(new Colourway { ClassId = id, Name = "Clay", FabricOfLetter = letters });
        return id;
    }
}
