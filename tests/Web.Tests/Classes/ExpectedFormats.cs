using System.Text.Json.Nodes;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Classes;

/// <summary>
/// What the page of the kit formats should say by the calls: numbers in a bag, packs, lengths, costs, shares wasted and cuts. The calls know
/// other hands than the class's, so the teacher's minutes alone are the class's own.
/// </summary>
internal sealed class ExpectedFormats(ClassByApi asked, ClassRecord record, IReadOnlyList<FabricFormats> table)
{
    private readonly ClassPlan plan = asked.Plan;
    private readonly ClassHabits habits = asked.Plan.Habits;

    public async Task Page(PageNumbers page)
    {
        var costs = new Dictionary<FormatRow, decimal>();
        foreach (var fabric in table)
        {
            // Colourways that have the fabric in the same letters get the same.
            var shares = plan.Colourways
                .Select(way => (Way: way.Name, Letters: way.FabricOfLetter.Where(pair => pair.Value == fabric.Fabric.FabricId).Select(pair => pair.Key).Order(StringComparer.Ordinal).ToList(), Kits: asked.Kits[way.ColourwayId]))
                .Where(way => way.Letters.Count > 0 && way.Kits > 0)
                .GroupBy(way => string.Concat(way.Letters))
                .Select(alike => (Ways: string.Join(", ", alike.Select(way => way.Way)), alike.First().Letters, Kits: alike.Sum(way => way.Kits)))
                .ToList();
            foreach (var row in fabric.Rows)
            {
                await Row(page, fabric.Fabric, row, shares, costs);
            }
        }

        Mix(page, "As chosen now", [.. table.Select(fabric => fabric.Chosen)], costs);
        Mix(page, "Least cost", [.. table.Select(fabric => fabric.Rows.Where(costs.ContainsKey).OrderBy(row => costs[row]).ThenBy(row => row.TeacherMinutes).First())], costs);
        Mix(page, "Least preparation time", [.. table.Select(fabric => fabric.Rows.Where(costs.ContainsKey).OrderBy(row => row.TeacherMinutes).ThenBy(row => costs[row]).First())], costs);
    }

    private async Task Row(PageNumbers page, PlannedFabric fabric, FormatRow row, List<(string Ways, List<string> Letters, int Kits)> shares, Dictionary<FormatRow, decimal> costs)
    {
        var format = row.Choice.Format;
        var answers = new List<JsonNode>();
        foreach (var share in shares)
        {
            answers.Add(await asked.Format(share.Letters, share.Kits, format, fabric));
        }

        if (answers.Find(answer => !answer["feasible"]!.GetValue<bool>()) is { } refused)
        {
            // The call names the strip as a shop does, the page in the class's marks.
            page.Take($"{row.Name} {refused["reason"]!.GetValue<string>().Replace("2½ in strip", "2½″ strip", StringComparison.Ordinal)}");
            return;
        }

        var perKit = answers.ConvertAll(answer => answer["perKit"]!.GetValue<decimal>());
        var inBag = perKit.ConvertAll(number => format == FormatCodes.Yardage ? habits.ShowYardage(Length.FromInches(number)) : $"{number:0}");
        var bag = inBag.Distinct().Count() == 1 ? inBag[0] : string.Join("; ", inBag.Zip(shares, (said, share) => $"{said} in {share.Ways}"));
        var total = format == FormatCodes.Yardage ? shares.Sum(share => share.Kits) : perKit.Zip(shares, (number, share) => (int)number * share.Kits).Sum();
        var minutes = FormatWords.Minutes(row.TeacherMinutes);
        if (row.Choice.IsBought)
        {
            // Nobody typed a price yet: told in a line of its own. Usual packs of squares have 42, quarters and eighths are sold singly.
            var packs = format is FormatCodes.FiveInchSquares or FormatCodes.TenInchSquares ? $", {((total - 1) / 42) + 1} pack{(total > 42 ? "s" : "")} of 42" : "";
            page.Take($"{row.Name} {bag} in each bag, {total}{packs} for the class, {minutes} of yours");
            return;
        }

        var cut = await asked.CutOf(fabric, Pieces(fabric, format, shares, perKit));
        var sewn = shares.Sum(share => share.Kits * share.Letters.SelectMany(asked.Kit).Sum(piece => piece.Width.Inches * piece.Height.Inches * piece.Count));
        var wasted = Math.Max(0m, 1m - (sewn / AreaCut(cut)));
        var buys = cut.Bought.IsPositive ? $"{habits.ShowYardage(cut.Bought)} to buy" : "from the shelf";
        var cuts = format == FormatCodes.CutPieces ? 0 : answers.Max(answer => answer["studentCuts"]!.GetValue<int>());
        var way = format is FormatCodes.CutPieces or FormatCodes.Yardage ? "" : ", cut by you";
        var figures = $"{bag} {total}{(format == FormatCodes.Yardage ? " lengths" : "")}, {buys} {Money(cut.Cost)} {FormattableString.Invariant($"{decimal.Round(wasted * 100m, 1):0.#}")} % {minutes} {cuts}";
        page.TakeOneOf([.. new[] { "", "least cost", "least time", "least costleast time" }.Select(mark => $"{row.Name}{way}{mark} {figures}")]);
        costs[row] = cut.Cost;
        if (row.IsChosen)
        {
            page.Take($"{row.Name}{way} · {Money(cut.Cost)} · {minutes}");
        }
        else
        {
            page.Take($"Choose : {row.Name}{way}, {fabric.Name}");
        }

        Pictures(page, row, way, perKit);
    }

    // The pictures of how a student cuts one kit: as many cuttings as there are precuts in the bag.
    private static void Pictures(PageNumbers page, FormatRow row, string way, List<decimal> perKit)
    {
        foreach (var (share, number) in row.Shares.Zip(perKit))
        {
            if (share.HandedOut is not { } thing)
            {
                continue;
            }

            page.Take($"{row.Name}{way}{(row.Shares.Count > 1 ? $", in {string.Join(", ", share.Ways)}" : "")}");
            var repeats = thing.Recipes.Select(recipe => recipe.Repeat).ToList();
            if (row.Choice.Format != FormatCodes.Yardage)
            {
                Assert.Equal(number, repeats.Sum());
            }

            foreach (var repeat in repeats.Where(repeat => repeat > 1))
            {
                page.Take($"{repeat} times");
            }
        }
    }

    private Dictionary<(Length Width, Length Height), int> Pieces(PlannedFabric fabric, string format, List<(string Ways, List<string> Letters, int Kits)> shares, List<decimal> perKit)
    {
        var width = fabric.Request.Stock.Bolt!.UsableWidth;
        var precut = PrecutSizes.Usual(width).FirstOrDefault(one => one.Format == format);
        var pieces = new Dictionary<(Length Width, Length Height), int>();
        foreach (var (share, number) in shares.Zip(perKit))
        {
            foreach (var (size, count) in format switch
            {
                FormatCodes.CutPieces => share.Letters.SelectMany(asked.Kit).Select(piece => ((piece.Width, piece.Height), piece.Count)),
                FormatCodes.Yardage => [((width, Length.FromInches(number)), 1)],
                _ => [((precut!.Width, precut.Length), (int)number)],
            })
            {
                pieces[size] = pieces.GetValueOrDefault(size) + (count * share.Kits);
            }
        }

        return pieces;
    }

    // Square inches of the strips that are cut, from the bolt and from the shelf's pieces.
    private static decimal AreaCut(CutByApi cut)
    {
        var stock = cut.Fabric.Request.Stock;
        return (cut.Used.Inches * stock.Bolt!.UsableWidth.Inches) + cut.Answer["sheets"]!.AsArray().Sum(sheet =>
        {
            var kind = stock.Sheets.Single(one => one.Name.ToString() == sheet!["name"]!.GetValue<string>());
            var across = sheet!["lengthwise"]!.GetValue<bool>() ? kind.Length : kind.Width;
            return across.Inches * sheet["repeat"]!.GetValue<int>() * sheet["strips"]!.AsArray().Sum(strip => strip!["height"]!.GetValue<decimal>() * strip["repeat"]!.GetValue<int>());
        });
    }

    private void Mix(PageNumbers page, string name, IReadOnlyList<FormatRow> rows, Dictionary<FormatRow, decimal> costs) =>
        page.Take($"{name} {Money(rows.Sum(row => costs[row]))} {FormatWords.Minutes(rows.Sum(row => row.TeacherMinutes))}");

    private string Money(decimal amount) => MoneyText.Write(amount, record.Currency);
}
