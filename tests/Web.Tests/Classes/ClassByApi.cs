using System.Net.Http.Json;
using System.Text.Json.Nodes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Tests.Classes;

/// <summary>What the call for a cutting plan answers for one fabric, in inches and money.</summary>
internal sealed record CutByApi(PlannedFabric Fabric, JsonNode Answer)
{
    public Length Used => Inches("length");

    public Length Floor => Inches("floor");

    public Length Bought => Length.FromInches(Answer["buy"]!["length"]!.GetValue<decimal>());

    public decimal Cost => Answer["buy"]!["cost"]!.GetValue<decimal>();

    public Length OneSize => Length.FromInches(Answer["oneSizePerStrip"]!["length"]!.GetValue<decimal>());

    public decimal OneSizeCost => Answer["oneSizePerStrip"]!["cost"]!.GetValue<decimal>();

    public int Strokes => Answer["strokes"]!.GetValue<int>();

    /// <summary>Money for what the plan uses of the cloth bought; the cloth of these classes neither shrinks nor is trued.</summary>
    public decimal CostAsUsed => Cost - decimal.Round((Bought - Used).Yards * Fabric.Request.Stock.Bolt!.PricePerYard, 2, MidpointRounding.AwayFromZero);

    private Length Inches(string name) => Length.FromInches(Answer[name]!.GetValue<decimal>());
}

/// <summary>A class reckoned again as another program would do it: cut list, formats and plans from the calls, the rest by the test's own sums.</summary>
internal sealed class ClassByApi(HttpClient client, ClassPlan plan, string blockJson)
{
    private readonly Dictionary<string, IReadOnlyList<(Length Width, Length Height, int Count)>> kit = [];

    public ClassPlan Plan => plan;

    /// <summary>Kits of each colourway.</summary>
    public IReadOnlyDictionary<long, int> Kits { get; } = plan.Colourways.ToDictionary(way => way.ColourwayId, way => plan.Kits.Count(one => one.ColourwayId == way.ColourwayId));

    /// <summary>The plan of each fabric, in the class's order.</summary>
    public IReadOnlyList<CutByApi> Cuts { get; private set; } = [];

    public static async Task<ClassByApi> Ask(HttpClient client, ClassPlan plan, string blockJson)
    {
        var asked = new ClassByApi(client, plan, blockJson);
        await asked.AskKit();
        asked.Cuts = await asked.CutsFor(asked.Kits);
        return asked;
    }

    /// <summary>Pieces of one kit in a letter's fabric.</summary>
    public IReadOnlyList<(Length Width, Length Height, int Count)> Kit(string letter) => kit[letter];

    /// <summary>The plans for other numbers of kits; fabrics that no kit needs are left out.</summary>
    public async Task<IReadOnlyList<CutByApi>> CutsFor(IReadOnlyDictionary<long, int> kits)
    {
        var cuts = new List<CutByApi>();
        foreach (var fabric in plan.Fabrics)
        {
            var demand = await Demand(fabric, kits);
            if (demand.Count > 0)
            {
                cuts.Add(await CutOf(fabric, demand));
            }
        }

        return cuts;
    }

    /// <summary>What all kits need of a fabric: the block's pieces, or what they are cut from where it is handed out so.</summary>
    public async Task<IReadOnlyDictionary<(Length Width, Length Height), int>> Demand(PlannedFabric fabric, IReadOnlyDictionary<long, int> kits)
    {
        var demand = new Dictionary<(Length, Length), int>();
        foreach (var way in plan.Colourways.Where(way => kits[way.ColourwayId] > 0))
        {
            var letters = way.FabricOfLetter.Where(pair => pair.Value == fabric.FabricId).Select(pair => pair.Key).ToList();
            IReadOnlyList<(Length Width, Length Height, int Count)> pieces = fabric.Format == FormatCodes.CutPieces || letters.Count == 0
                ? [.. letters.SelectMany(Kit)]
                : [(SideOf(fabric.Format), SideOf(fabric.Format), (await Format(letters, 1, fabric.Format, fabric))["perKit"]!.GetValue<int>())];
            foreach (var (width, height, count) in pieces)
            {
                demand[(width, height)] = demand.GetValueOrDefault((width, height)) + (count * kits[way.ColourwayId]);
            }
        }

        return demand;
    }

    /// <summary>The answer for one kit's pieces of the letters in a format; for a length, of the fabric's own cloth.</summary>
    public async Task<JsonNode> Format(IEnumerable<string> letters, int kits, string format, PlannedFabric fabric)
    {
        var answer = await Post("/api/kit-formats", new
        {
            kits,
            formats = new[] { format },
            bolt = Bolt(fabric),
            pieces = letters.SelectMany(letter => Kit(letter).Select(piece => new { name = $"{letter}: {plan.Habits.ShowPiece(piece.Width, piece.Height)}", width = piece.Width.Inches, height = piece.Height.Inches, count = piece.Count })),
        });
        return answer["formats"]![0]!;
    }

    /// <summary>The plan of a fabric for pieces of other sizes, from the cloth that the class has of it.</summary>
    public async Task<CutByApi> CutOf(PlannedFabric fabric, IReadOnlyDictionary<(Length Width, Length Height), int> pieces) =>
        new(fabric, await Post("/api/cutting-plan", Body(fabric, pieces)));

    /// <summary>What a student who brings the fabric buys of a letter: a length off a bolt of 40 in, or fat quarters.</summary>
    public async Task<(Length Length, int FatQuarters)> Supply(string letter)
    {
        var pieces = Kit(letter).Select((piece, index) => new { name = $"{index}", width = piece.Width.Inches, height = piece.Height.Inches, count = piece.Count });
        var bolt = await Post("/api/cutting-plan", new { stock = new { bolt = new { usableWidth = 40 } }, pieces });
        var quarters = await Post("/api/cutting-plan", new { stock = new { sheets = new[] { new { name = "fat quarter", width = 21, length = 18, price = 1 } } }, pieces });
        return (Length.FromInches(bolt["buy"]!["length"]!.GetValue<decimal>()), quarters["sheets"]!.AsArray().Sum(sheet => sheet!["repeat"]!.GetValue<int>()));
    }

    private static Length SideOf(string format) => Length.FromInches(format == FormatCodes.TenInchSquares ? 10 : 5);

    private async Task AskKit()
    {
        var answer = await Post("/api/cut-list", new { block = JsonNode.Parse(blockJson) });
        foreach (var fabric in answer["fabrics"]!.AsArray())
        {
            kit[fabric!["letter"]!.GetValue<string>()] =
                [.. fabric["pieces"]!.AsArray().Select(piece => (Length.FromInches(piece!["width"]!.GetValue<decimal>()), Length.FromInches(piece["height"]!.GetValue<decimal>()), piece["count"]!.GetValue<int>()))];
        }
    }

    // The same cloth as the class has; the pieces in the class's order, because of plans that are equally good the first is taken.
    private static object Body(PlannedFabric fabric, IReadOnlyDictionary<(Length Width, Length Height), int> demand)
    {
        var (stock, request) = (fabric.Request.Stock, fabric.Request);
        var order = request.Pieces.Select(piece => (piece.Width, piece.Height)).ToList();
        return new
        {
            stock = new
            {
                bolt = Bolt(fabric),
                sheets = stock.Sheets.Select(sheet => new { name = sheet.Name.ToString(), width = sheet.Width.Inches, length = sheet.Length.Inches, available = sheet.Available, price = sheet.Price }),
            },
            directional = request.Directional,
            layers = request.Layers,
            longestStrip = request.LongestStrip.Inches,
            pieces = demand.OrderBy(pair => order.IndexOf(pair.Key)).Select((pair, index) => new { name = $"{index}", width = pair.Key.Width.Inches, height = pair.Key.Height.Inches, count = pair.Value }),
        };
    }

    private static object Bolt(PlannedFabric fabric)
    {
        var bolt = fabric.Request.Stock.Bolt!;
        return new { usableWidth = bolt.UsableWidth.Inches, increment = bolt.Increment.Inches, minimum = bolt.Minimum.Inches, pricePerYard = bolt.PricePerYard };
    }

    private async Task<JsonNode> Post(string address, object body)
    {
        using var answer = await client.PostAsJsonAsync(new Uri(address, UriKind.Relative), body, TestContext.Current.CancellationToken);
        var text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        Assert.True(answer.IsSuccessStatusCode, text);
        return JsonNode.Parse(text)!;
    }
}
