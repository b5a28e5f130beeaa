using System.Globalization;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Classes;

/// <summary>Takes off the pages of a class what they should say by the calls' answers; money and prices have a file of their own.</summary>
internal sealed class ExpectedNumbers(ClassByApi asked, ClassRecord record)
{
    private readonly ClassPlan plan = asked.Plan;
    private readonly ClassHabits habits = asked.Plan.Habits;
    private readonly ExpectedPrices prices = new(asked, record);
    private readonly ExpectedTickets tickets = new(asked, record);

    private int Students => plan.Kits.Count(kit => kit.Role == KitRole.Student);

    /// <summary>The stages, on every page of a class.</summary>
    public void Stages(PageNumbers page)
    {
        var (bought, oneSize) = (Sum(asked.Cuts.Select(cut => cut.Bought)), Sum(asked.Cuts.Select(cut => cut.OneSize)));
        page.Take($"Roster {Students} of {record.Places} places Fabrics {plan.Colourways.Count} colourways Cut {Yards(bought)}, saves {Yards(oneSize - bought)} Price {Money(prices.WithTax)} a kit");
        page.Take($"0 of {plan.Kits.Count} ready");
    }

    public async Task Overview(PageNumbers page)
    {
        if (record.HeldOn is { } day)
        {
            page.Take($"{day.Day} {day.ToString("MMMM", CultureInfo.InvariantCulture)} {day.Year}, {record.HeldTime}");
        }

        page.Take($"{Students} students, {record.SpareKits} spare, {record.SampleKits} sample");
        page.Take($"Print {Students} handouts and {plan.Kits.Count} bag labels.");
        page.Take($"0 of {plan.Kits.Count} kits ready.");
        page.Take(string.Join(" ", plan.Colourways.Select(way => $"{way.Name} {asked.Kits[way.ColourwayId]}")));
        foreach (var cut in asked.Cuts)
        {
            var pieces = (await asked.Demand(cut.Fabric, asked.Kits)).Values.Sum();
            var buys = cut.Bought.IsPositive ? Yards(cut.Bought) : "from the shelf";
            page.Take($"{string.Join(", ", cut.Fabric.Letters)} {cut.Fabric.Name} {pieces} {buys} {Money(cut.Cost)} {OrDash(cut.Used)} {OrDash(cut.Floor)} {Yards(cut.OneSize)}");
        }

        prices.Summary(page);
        await Room(page);
    }

    /// <summary>Headroom and the next student, colourway by colourway: the calls are asked for ever more kits.</summary>
    public async Task Room(PageNumbers page)
    {
        foreach (var way in plan.Colourways)
        {
            for (var more = 1; ; more++)
            {
                var kits = asked.Kits.ToDictionary(pair => pair.Key, pair => pair.Value + (pair.Key == way.ColourwayId ? more : 0));
                var then = await asked.CutsFor(kits);
                var beyond = then.Zip(asked.Cuts).Where(pair => pair.First.Bought > pair.Second.Bought).ToList();
                if (beyond.Count == 0)
                {
                    continue;
                }

                var fits = more switch { 1 => "No more kit fits", 2 => "1 more kit fits", _ => $"{more - 1} more kits fit" };
                var needs = string.Join(", ", beyond.Select(pair => $"{Yards(pair.First.Bought - pair.Second.Bought)} of {pair.First.Fabric.Name}"));
                page.TakeOneOf([.. beyond.Select(pair => $"{way.Name}: {fits} into the cloth; {pair.First.Fabric.Name} runs out first. {(more == 1 ? "The next one" : "One beyond that")} needs another {needs}: {Money(then.Sum(cut => cut.Cost) - asked.Cuts.Sum(cut => cut.Cost))}.")]);
                break;
            }
        }
    }

    public void Roster(PageNumbers page)
    {
        foreach (var kit in plan.Kits.Where(kit => kit.Role == KitRole.Student))
        {
            page.Take($"{kit.Number} {kit.Name}");
        }
    }

    public async Task Fabrics(PageNumbers page)
    {
        foreach (var way in plan.Colourways)
        {
            page.Take($"{way.Name} {string.Join(" ", way.FabricOfLetter.OrderBy(pair => pair.Key, StringComparer.Ordinal).Select(pair => $"{pair.Key} {plan.Fabric(pair.Value).Name}"))} {asked.Kits[way.ColourwayId]} kits");
        }

        foreach (var kit in plan.Kits.Where(kit => kit.Role != KitRole.Student))
        {
            page.Take($"Kit {kit.Number}, {kit.Name}");
        }

        await Room(page);
    }

    public async Task Cut(PageNumbers page)
    {
        foreach (var cut in asked.Cuts)
        {
            page.Take($"{cut.Fabric.Name} {ExpectedTickets.FromShelf(cut)} {(cut.Bought.IsPositive ? Yards(cut.Bought) : "nothing")} {Money(cut.Cost)}");
        }

        page.Take($"Together {Money(asked.Cuts.Sum(cut => cut.Cost))} {Money(asked.Cuts.Sum(cut => cut.OneSizeCost - cut.Cost))} less than one size a strip");
        await Room(page);
        foreach (var cut in asked.Cuts)
        {
            tickets.Ticket(page, cut);
        }

        tickets.Drawings(page);
    }

    public void Shopping(PageNumbers page)
    {
        var buys = asked.Cuts.Where(cut => cut.Bought.IsPositive).ToList();
        page.Take($"Buy {Money(buys.Sum(cut => cut.Cost))}");
        page.Take($"0 of {buys.Count} lines in the basket.");
        foreach (var cut in buys)
        {
            page.Take($"In the basket: {cut.Fabric.Name}, {Yards(cut.Bought)} {cut.Fabric.Name} {Yards(cut.Bought)} {Money(cut.Cost)}");
        }

        foreach (var cut in asked.Cuts.Where(cut => cut.Answer["sheets"]!.AsArray().Count > 0))
        {
            page.Take($"{cut.Fabric.Name}: {ExpectedTickets.FromShelf(cut)}");
        }
    }

    /// <summary>The list of several classes: each fabric once, and below it what each class takes of it.</summary>
    public static void Season(PageNumbers page, IReadOnlyList<ClassByApi> classes)
    {
        var habits = classes[0].Plan.Habits;
        string Yards(CutByApi cut) => cut.Bought.IsPositive ? habits.ShowYardage(cut.Bought) : "from the shelf";
        var lines = classes
            .SelectMany(one => one.Cuts.Select(cut => (one.Plan.Title, Cut: cut)))
            .GroupBy(part => part.Cut.Fabric.FabricId)
            .Select(parts => (parts.First().Cut.Fabric.Name, Parts: parts.ToList(), Length: Sum(parts.Select(part => part.Cut.Bought)), Cost: parts.Sum(part => part.Cut.Cost)))
            .ToList();
        var buys = lines.Where(line => line.Length.IsPositive).ToList();
        page.Take($"Buy {MoneyText.Write(buys.Sum(line => line.Cost), habits.Currency)}");
        page.Take($"0 of {buys.Count} lines in the basket.");
        foreach (var (name, parts, length, cost) in buys)
        {
            var shares = parts.Count == 1 ? "" : " " + string.Join("; ", parts.Select(part => $"{part.Title}: {Yards(part.Cut)}"));
            page.Take($"In the basket: {name}, {habits.ShowYardage(length)} {name} {habits.ShowYardage(length)}{shares} {MoneyText.Write(cost, habits.Currency)}");
        }

        foreach (var (name, parts, _, _) in lines)
        {
            foreach (var (_, cut) in parts.Where(part => part.Cut.Answer["sheets"]!.AsArray().Count > 0))
            {
                page.Take($"{name}: {ExpectedTickets.FromShelf(cut)}");
            }
        }
    }

    public void Price(PageNumbers page) => prices.Page(page);

    /// <summary>The table beside the charts, a plan from the calls for each number of students.</summary>
    public Task Curve(PageNumbers page) => prices.Curve(page);

    public async Task Supply(PageNumbers page)
    {
        if (record.HeldOn is { } day)
        {
            page.Take($"{day.Day} {day.ToString("MMMM", CultureInfo.InvariantCulture)} {day.Year}, {record.HeldTime}");
        }

        foreach (var letter in plan.Letters)
        {
            var (length, quarters) = await asked.Supply(letter.Letter);
            page.Take($"{letter.Letter} {letter.Name} {Yards(length)}, or {(quarters == 1 ? "1 fat quarter" : $"{quarters} fat quarters")}");
        }

        // What the list counts on, and the seam allowance of the class.
        page.Take("Lengths count on 40″ of usable width, fat quarters on 18 × 21 inches");
        page.Take("a ¼″ foot");
    }

    public async Task Pack(PageNumbers page)
    {
        foreach (var stage in new[] { "cut", "bagged", "checked", "handed over" })
        {
            page.Take($"{stage} 0 of {plan.Kits.Count}");
        }

        page.Take("short (0)");
        page.Take($"{plan.Kits.Count} of {plan.Kits.Count} kits shown");
        var lines = plan.Fabrics.ToDictionary(fabric => fabric.FabricId, _ => 0);
        foreach (var kit in plan.Kits)
        {
            var way = plan.ColourwayOf(kit)!;
            var said = $"{kit.Number} {kit.Name} {way.Name}";
            foreach (var letter in plan.Letters.Select(letter => letter.Letter))
            {
                var fabric = plan.Fabric(way.FabricOfLetter[letter]);
                var pieces = fabric.Format == FormatCodes.CutPieces
                    ? [.. asked.Kit(letter).Select(piece => $"{habits.ShowPiece(piece.Width, piece.Height)} × {piece.Count}")]
                    : new[] { $"10″ square × {(await asked.Format([letter], 1, fabric.Format, fabric))["perKit"]}" };
                lines[fabric.FabricId] += pieces.Length;
                said += string.Concat(pieces.Select(piece => $" {letter} {piece} to cut"));
            }

            page.Take($"{said} to cut Whole kit {kit.Number} bagged");
        }

        foreach (var fabric in plan.Fabrics)
        {
            page.Take($"{fabric.Name} {string.Join(", ", fabric.Letters)} 0 of {lines[fabric.FabricId]} ticks");
        }
    }

    public void Print(PageNumbers page)
    {
        page.Take($"{Students} students, each");
        page.Take($"{asked.Cuts.Count} fabrics: every strip");
        page.Take($"{plan.Kits.Count} labels with number");
        page.Take("choose 100 % size");
        if (plan.Kits.Count(kit => kit.LargePrint) is > 0 and var large)
        {
            page.Take($"{large} in large print.");
        }
    }

    private string OrDash(Length length) => length.IsPositive ? habits.Show(length) : "–";

    private string Yards(Length length) => habits.ShowYardage(length);

    private string Money(decimal amount) => MoneyText.Write(amount, record.Currency);

    private static Length Sum(IEnumerable<Length> lengths) => lengths.Aggregate(Length.Zero, (sum, length) => sum + length);
}
