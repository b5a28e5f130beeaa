using KittingBee.Planning.Cutting;
using KittingBee.Web.Classes;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Classes;

/// <summary>What the money of a class comes to, reckoned from the calls' answers and the class's own figures by the sums of a till.</summary>
internal sealed class ExpectedPrices
{
    private readonly ClassByApi asked;
    private readonly ClassRecord record;
    private readonly int kits;
    private readonly int paid;
    private readonly int minutes;
    private readonly decimal perKit;
    private readonly decimal price;
    private readonly (string For, decimal Sum)[] lines;

    public ExpectedPrices(ClassByApi asked, ClassRecord record)
    {
        (this.asked, this.record) = (asked, record);
        (kits, paid) = (asked.Plan.Kits.Count, asked.Plan.Kits.Count(kit => kit.Role == KitRole.Student));
        minutes = asked.Cuts.Sum(cut => MinutesOf(cut, record));
        lines =
        [
            ("Fabric as bought", asked.Cuts.Sum(cut => cut.Cost)),
            ("Notions", record.Notions * kits),
            ("Packaging and printing", record.Packaging * kits),
            ("Cutting", Cent(record.LabourPerHour * minutes / 60m)),
            ("Packing", Cent(record.LabourPerHour * record.PackingMinutes * kits / 60m)),
        ];
        perKit = UpTo(Together / paid, 0.01m);
        price = UpTo(perKit / (1m - (record.MarginPercent / 100m)), record.PriceStep);
    }

    public decimal WithTax => price + Cent(price * record.TaxPercent / 100m);

    private decimal Together => lines.Sum(line => line.Sum);

    private decimal StudentPays => record.Fee + price;

    private int BreakEven => (int)decimal.Ceiling(record.FixedCosts / (StudentPays - perKit));

    /// <summary>Minutes at the cutting table, at the class's speed: the strokes are the call's.</summary>
    public static int MinutesOf(CutByApi cut, ClassRecord record)
    {
        Assert.Equal(cut.Strokes, cut.Fabric.Plan!.Strokes);
        return (int)decimal.Ceiling(CuttingTime.Minutes(cut.Fabric.Request, cut.Fabric.Plan, new CuttingRates(SecondsPerStroke: record.SecondsPerStroke)));
    }

    /// <summary>The few figures of the class's first page.</summary>
    public void Summary(PageNumbers page) =>
        page.Take($"A kit costs {Money(perKit)} A kit is sold at {Money(WithTax)} A student pays {Money(StudentPays)} Breaks even at {BreakEven} students");

    public void Page(PageNumbers page)
    {
        // Each paid kit's shares add up to what it costs: cut down to the cent, what is left goes to those that lost most by it.
        var exact = lines.Select(line => perKit * 100m * line.Sum / Together).ToList();
        var rest = (int)((perKit * 100m) - exact.Sum(decimal.Floor));
        var up = Enumerable.Range(0, lines.Length).OrderByDescending(index => exact[index] - decimal.Floor(exact[index])).Take(rest).ToHashSet();
        foreach (var ((line, sum), index) in lines.Select((line, index) => (line, index)))
        {
            page.Take($"{line} {Money(sum)} {Money((decimal.Floor(exact[index]) + (up.Contains(index) ? 1 : 0)) / 100m)}");
        }

        page.Take($"Together {Money(Together)} {Money(perKit)}");
        var used = UpTo((Together - lines[0].Sum + asked.Cuts.Sum(cut => cut.CostAsUsed)) / paid, 0.01m);
        page.Take($"{kits} kits are made and {paid} are paid for; spares and samples are carried by these. Cutting takes about {minutes} minutes. With the fabric counted as used, not as bought, a paid kit costs {Money(used)};");
        page.Take($"What to ask {Money(price)} a kit Left after the cost {Money(price - perKit)} Margin (share of the price) {Percent((price - perKit) / price)} Markup (share of the cost) {Percent((price - perKit) / perKit)}");
        page.Take($"Sales tax {Money(WithTax - price)} With tax {Money(WithTax)} Class fee {Money(record.Fee)} A student pays, before tax {Money(StudentPays)}");
        page.Take($"{BreakEven} students cover the fixed costs of {Money(record.FixedCosts)} at this cost a kit.");

        // Words of the form, not figures of the class.
        page.Take("0 where it is given");
    }

    public async Task Curve(PageNumbers page)
    {
        var most = Math.Max(record.Places ?? 0, paid + 6);
        var points = new List<(int Students, decimal Fabric, decimal Cost, decimal Income)>();
        for (var students = 1; students <= most; students++)
        {
            var made = students + kits - paid;
            var cuts = await asked.CutsFor(students == paid ? asked.Kits : Shared(made));

            // Every line of the till to the cent; cutting at today's minutes a kit.
            var labour = Cent(record.LabourPerHour * minutes / kits * made / 60m) + Cent(record.LabourPerHour * record.PackingMinutes * made / 60m);
            var cost = cuts.Sum(cut => cut.Cost) + record.FixedCosts + ((record.Notions + record.Packaging) * made) + labour;
            points.Add((students, cuts.Sum(cut => cut.Cost), cost, StudentPays * students));
        }

        foreach (var (students, fabric, cost, income) in points)
        {
            page.Take($"{students} {Money(fabric)} {Money(cost)} {Money(UpTo(cost / students, 0.01m))} {Money(income)} {Money(income - cost)}");
        }

        var first = points.First(point => point.Income >= point.Cost).Students;
        var safe = points.FindLastIndex(point => point.Income < point.Cost) is var loss and >= 0 ? points[loss].Students + 1 : 1;
        page.Take($"The class pays for itself from {first} students on.");
        if (safe > first)
        {
            page.Take($"only from {safe} on does no further student bring a loss back.");
        }
    }

    // More kits go to the colourways in the shares that they have; the largest remainder comes first.
    private Dictionary<long, int> Shared(int made)
    {
        var shares = asked.Kits.ToDictionary(pair => pair.Key, pair => made * pair.Value / kits);
        foreach (var way in asked.Kits.Keys.OrderByDescending(way => made * asked.Kits[way] % kits).ThenBy(way => way).Take(made - shares.Values.Sum()).ToList())
        {
            shares[way]++;
        }

        return shares;
    }

    private string Money(decimal amount) => MoneyText.Write(amount, record.Currency);

    private static string Percent(decimal share) => System.FormattableString.Invariant($"{share * 100m:0.##} %");

    private static decimal Cent(decimal money) => decimal.Round(money, 2, MidpointRounding.AwayFromZero);

    private static decimal UpTo(decimal money, decimal step) => decimal.Ceiling(money / step) * step;
}
