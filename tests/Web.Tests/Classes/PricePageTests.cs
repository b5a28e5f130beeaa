using System.Net;
using KittingBee.Web.Classes;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Classes;

public sealed class PricePageTests(SampleClassHost host) : IClassFixture<SampleClassHost>
{
    // However busy the machine is: a test waits for the whole curve.
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(5);

    private string Page => $"/classes/{host.ClassId}/price";

    [Fact]
    public async Task Saving_ChangesTheFigures_AndTheAnswerFollows()
    {
        var (status, html) = await Post(("Form.Fee", "25"), ("Form.Pricing", "markup"), ("Form.MarkupPercent", "100"), ("Form.PriceStep", "0.05"));

        Assert.Equal(HttpStatusCode.OK, status);
        var record = host.Guild.Get<ClassStore>().Find(host.ClassId)!;
        Assert.Equal((25m, "markup", 100m, 0.05m), (record.Fee, record.Pricing, record.MarkupPercent, record.PriceStep));
        var price = ClassPricing.Of(record, await host.Plan());

        // Twice the cost is a markup of 100 % and a margin of 50 % (Monash University marketing dictionary, "keystone markup").
        Assert.InRange(price.Price!.BeforeTax, 2 * price.Cost!.PerKit, (2 * price.Cost.PerKit) + 0.05m);
        Assert.Contains($"{MoneyText.Write(price.Price.BeforeTax, "USD")} a kit", FormClient.Words(html), StringComparison.Ordinal);
        Assert.Contains(MoneyText.Write(price.Cost.Total, "USD"), FormClient.Words(html), StringComparison.Ordinal);
    }

    [Fact]
    public async Task LinesOfTheCost_AddUp()
    {
        var price = ClassPricing.Of(host.Guild.Get<ClassStore>().Find(host.ClassId)!, await host.Plan());

        Assert.Equal(price.Cost!.Total, price.Cost.Lines.Sum(line => line.Class));
        Assert.Equal(price.Cost.PerKit, price.Cost.Lines.Sum(line => line.PerKit));
        Assert.True(price.Cost.PerKit * price.Request.PaidKits >= price.Cost.Total);
        Assert.True(price.Cost.PerKitAsUsed <= price.Cost.PerKit);
    }

    [Fact]
    public async Task CostsOfAKit_SayWhichKitsShareThem()
    {
        var (_, price) = await host.Client.Get(Page);
        var (_, settle) = await host.Client.Get($"/classes/{host.ClassId}/settle");

        Assert.Contains("What each paid kit costs", FormClient.Words(price), StringComparison.Ordinal);
        Assert.Contains("cost of each kit made, as planned", FormClient.Words(settle), StringComparison.Ordinal);
        Assert.Contains("cost of each kit handed over", FormClient.Words(settle), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Curve_AtEveryNumber_CostsWhatAPlanOfThatNumberCosts()
    {
        var planning = host.Guild.Get<ClassPlanning>();
        var materials = planning.Materials(host.ClassId)!;
        var plan = await host.Plan();
        var curve = ClassCurve.Of(planning, host.Guild.Get<PlanBook>(), materials, plan, TimeProvider.System, Patience)!;
        Assert.True(curve.Complete);
        var extra = plan.Kits.Count(kit => kit.Role is KitRole.Spare or KitRole.Sample);
        Assert.All(curve.Points, point =>
        {
            var kits = point.Students == SampleGuild.Names.Length ? KitNumbers.Of(plan) : KitNumbers.Scaled(plan, point.Students + extra);
            Assert.Equal(planning.PlanFor(materials, plan.CutList, kits).Sum(fabric => fabric.Plan!.Buy.Cost), point.Fabric);
        });
    }

    [Fact]
    public async Task Curve_WithoutTime_HasTheFewPointsThatAreKnownAndSaysThatMoreCome()
    {
        var planning = host.Guild.Get<ClassPlanning>();
        var curve = ClassCurve.Of(planning, new PlanBook(host.Guild.Get<PlanStore>()), planning.Materials(host.ClassId)!, await host.Plan(), TimeProvider.System, TimeSpan.Zero)!;
        Assert.False(curve.Complete);
        Assert.Equal([1, SampleGuild.Names.Length, 14], curve.Points.Select(point => point.Students));
        var (_, part) = await host.Client.Get(Page + "?curve=true&part=true");
        Assert.StartsWith("<section", part.TrimStart(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Curve_AtTodaysNumber_HasTodaysFabric()
    {
        var planning = host.Guild.Get<ClassPlanning>();
        var materials = planning.Materials(host.ClassId)!;
        var plan = await host.Plan();

        var curve = ClassCurve.Of(planning, host.Guild.Get<PlanBook>(), materials, plan, TimeProvider.System, Patience)!;

        var today = curve.Points.Single(point => point.Students == SampleGuild.Names.Length);
        Assert.Equal(plan.Fabrics.Sum(fabric => fabric.Plan!.Buy.Cost), today.Fabric);
        Assert.Equal(today.Income - today.Cost, today.Profit);
        var (_, html) = await host.Client.Get(Page + "?curve=true");
        Assert.Contains("Every point is a real cutting plan", FormClient.Words(html), StringComparison.Ordinal);
        Assert.Equal(2, html.Split("<svg class=\"chart\"").Length - 1);
    }

    [Theory]
    [InlineData("Form.Fee", "-5", "−5|-5")]
    [InlineData("Form.Fee", "lots", "lots")]
    [InlineData("Form.Fee", "", "missing")]
    [InlineData("Form.Notions", "1.005", "1.005")]
    [InlineData("Form.MarginPercent", "100", "95")]
    [InlineData("Form.PackingMinutes", "2.5", "2.5")]
    [InlineData("Form.PriceStep", "0", "0.01")]
    [InlineData("Form.Pricing", "free", "choose one")]
    [InlineData("Form.TaxPercent", "1e400", "1e400")]
    public async Task BadFigures_AreNamed_KeptInTheForm_AndNotStored(string field, string typed, string says)
    {
        var before = host.Guild.Get<ClassStore>().Find(host.ClassId);

        var (status, html) = await Post((field, typed));

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal(before, host.Guild.Get<ClassStore>().Find(host.ClassId));
        var after = html[html.IndexOf($"name=\"{field}\"", StringComparison.Ordinal)..];
        var message = FormClient.Words(after[after.IndexOf("field-validation-error", StringComparison.Ordinal)..after.IndexOf("</div>", StringComparison.Ordinal)]);
        Assert.Contains(says.Split('|'), part => message.Contains(part, StringComparison.Ordinal));
        if (field != "Form.Pricing")
        {
            Assert.Contains($"value=\"{typed}\"", html, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task SavingOverSomebodyElsesChange_IsTold_AndChangesNothing()
    {
        var before = host.Guild.Get<ClassStore>().Find(host.ClassId)!;

        var (_, html) = await Post(("Form.Version", (before.Version - 1).ToString(System.Globalization.CultureInfo.InvariantCulture)), ("Form.Fee", "77.77"));

        Assert.Contains("Somebody saved this", FormClient.Words(html), StringComparison.Ordinal);
        Assert.Contains("value=\"77.77\"", html, StringComparison.Ordinal);
        Assert.Equal(before, host.Guild.Get<ClassStore>().Find(host.ClassId));
    }

    private Task<(HttpStatusCode Status, string Html)> Post(params (string Field, string Value)[] typed) =>
        host.Client.Post(Page, Page, typed.Prepend(("Form.Pricing", "margin")).GroupBy(item => item.Item1).ToDictionary(item => item.Key, item => item.Last().Item2));
}
