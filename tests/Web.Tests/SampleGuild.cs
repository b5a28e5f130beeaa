using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests;

/// <summary>Puts an invented class into an empty guild, through the program's own stores.</summary>
internal static class SampleGuild
{
    // A traditional star of half-square triangles and four-patch corners, drawn up here.
    public const string StarJson = """
        { "name": "Corner Star", "columns": [3, 3, 3], "rows": [3, 3, 3],
          "fabrics": [ { "letter": "A", "name": "background" }, { "letter": "B", "name": "points" }, { "letter": "C", "name": "middle" } ],
          "units": [
            { "row": 0, "column": 0, "kind": "checkerboard", "patches": [["A", "C"], ["C", "A"]] },
            { "row": 0, "column": 1, "kind": "half-square-triangle", "fabrics": ["A", "B"] },
            { "row": 0, "column": 2, "kind": "checkerboard", "patches": [["C", "A"], ["A", "C"]] },
            { "row": 1, "column": 0, "kind": "half-square-triangle", "fabrics": ["B", "A"], "turn": 90 },
            { "row": 1, "column": 1, "kind": "plain", "fabrics": ["C"] },
            { "row": 1, "column": 2, "kind": "half-square-triangle", "fabrics": ["A", "B"], "turn": 90 },
            { "row": 2, "column": 0, "kind": "checkerboard", "patches": [["C", "A"], ["A", "C"]] },
            { "row": 2, "column": 1, "kind": "half-square-triangle", "fabrics": ["B", "A"] },
            { "row": 2, "column": 2, "kind": "checkerboard", "patches": [["A", "C"], ["C", "A"]] } ] }
        """;

    public static readonly string[] Names =
        ["Ada Lindqvist", "Birgit Søndergaard", "Chiara Monti", "Dorota Wójcik", "Esperança Vale", "Fern O’Malley", "Greta <Huber>", "=Hana & Co"];

    public static async Task<long> Fill(GuildHost guild, bool metric = false, int students = 8)
    {
        await guild.Get<GuildStore>().Save(new Guild { Name = "Millpond Piecers", Units = metric ? "centimetres" : "inches", Paper = metric ? "a4" : "letter", Currency = metric ? "EUR" : "USD", Version = guild.Get<GuildStore>().Read().Version });
        var fabrics = guild.Get<FabricStore>();
        var linen = await fabrics.Add(Cloth("Linen ground", "#f1e9dc", 9.5m, metric));
        var indigo = await fabrics.Add(Cloth("Indigo", "#27447a", 12m, metric));
        var madder = await fabrics.Add(Cloth("Madder", "#9a3324", 12m, metric));
        var weld = await fabrics.Add(Cloth("Weld", "#d6a441", 11m, metric));
        await guild.Get<ShelfStore>().Add(new ShelfPiece { FabricId = indigo, Kind = "remnant", Width = Length.FromInches(20), Length = Length.FromInches(13), Note = "from the spring class" });
        var classId = await guild.Get<ClassStore>().Add(new ClassRecord
        {
            Title = "Corner Star cushion",
            HeldOn = new DateOnly(2031, 4, 12),
            HeldTime = "10:00 to 16:00",
            Place = "Mill room",
            BlockName = "Corner Star",
            BlockJson = StarJson,
            Units = metric ? "centimetres" : "inches",
            Paper = metric ? "a4" : "letter",
            Currency = metric ? "EUR" : "USD",
            Places = 12,
            SpareKits = 1,
            SampleKits = 1,
            SeamAllowance = metric ? Length.FromMillimetres(6) : Length.FromInches(0, 1, 4),
            CuttingStep = metric ? Length.FromMillimetres(1) : Length.FromInches(0, 1, 8),
            Notions = 1.20m,
            Packaging = 0.60m,
            LabourPerHour = 12m,
            FixedCosts = 90m,
            Fee = 15m,
            TaxPercent = 6m,
        });
        var ways = guild.Get<ColourwayStore>();
        long[] colourways =
        [
            await ways.Add(new Colourway { ClassId = classId, Name = "Dusk", FabricOfLetter = new Dictionary<string, long> { ["A"] = linen, ["B"] = indigo, ["C"] = madder } }),
            await ways.Add(new Colourway { ClassId = classId, Name = "Harvest", FabricOfLetter = new Dictionary<string, long> { ["A"] = linen, ["B"] = madder, ["C"] = weld } }),
        ];
        await guild.Get<RosterStore>().Add(classId, [.. Enumerable.Range(0, students).Select(index => new Student
        {
            Name = index < Names.Length ? Names[index] : $"Student number {index + 1}",
            ColourwayId = colourways[index % 2],
            LargePrint = index == 2,
            LeftHanded = index == 3,
            Note = index == 1 ? "brings her own scissors" : "",
        })]);
        return classId;
    }

    private static Fabric Cloth(string name, string colour, decimal price, bool metric) => new()
    {
        Name = name,
        Colour = colour,
        UsableWidth = metric ? Length.FromMillimetres(1060) : Length.FromInches(40),
        Price = price,
        PricePer = metric ? "metre" : "yard",
        Increment = metric ? Length.FromMillimetres(100) : Length.FromInches(4, 1, 2),
        Minimum = metric ? Length.FromMillimetres(100) : Length.FromInches(4, 1, 2),
    };
}
