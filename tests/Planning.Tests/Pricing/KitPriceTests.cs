using CsCheck;
using KittingBee.Planning.Pricing;

namespace KittingBee.Planning.Tests.Pricing;

public sealed class KitPriceTests
{
    private static readonly decimal[] Steps = [0.01m, 0.05m, 0.50m, 1m, 5m];

    // Keystone: a cost of 10 sells at 20, a markup of 100 % and a margin of 50 %: Monash University marketing dictionary, "keystone markup".
    [Theory]
    [InlineData(PriceBy.Markup, 1)]
    [InlineData(PriceBy.Margin, 0.5)]
    [InlineData(PriceBy.SetByHand, 20)]
    public void For_Keystone_IsTwiceTheCost(PriceBy by, decimal value)
    {
        var price = Price(10, new(by, value));
        Assert.Equal((20m, 10m, 0.5m, 1m), (price.BeforeTax, price.Profit, price.Margin, price.Markup));
    }

    // $5 an item, times 2: my.crazyartzone.com/?p=466. Twice 47.34 is 94.68; stainedglassexpress.com prints 94.80.
    [Theory]
    [InlineData(5, 10)]
    [InlineData(47.34, 94.68)]
    public void For_TwiceTheCost_IsToTheCent(decimal cost, decimal price) => Assert.Equal(price, Price(cost, new(PriceBy.Markup, 1)).BeforeTax);

    [Theory]
    [InlineData(18.37, 0.30, 0.50, 26.50)]
    [InlineData(7, 0.30, 1, 10)]
    [InlineData(7.01, 0.30, 1, 11)]
    public void For_AMargin_RoundsUpToTheStep(decimal cost, decimal margin, decimal step, decimal price) =>
        Assert.Equal(price, Price(cost, new(PriceBy.Margin, margin, step)).BeforeTax);

    [Fact]
    public void For_Tax_IsAddedOrIncluded()
    {
        Assert.Equal(new KitPrice(10, 20, 1.65m, 21.65m), Price(10, new(PriceBy.Markup, 1, 1, 0.0825m)));
        // 20 × 1.19 = 23.80, up to 24.00; the tax in it is 24 × 19/119 = 3.83.
        Assert.Equal(new KitPrice(10, 20.17m, 3.83m, 24), Price(10, new(PriceBy.Markup, 1, 1, 0.19m, true)));
        Assert.Equal(new KitPrice(10, 20.17m, 3.83m, 24), Price(10, new(PriceBy.SetByHand, 24, 1, 0.19m, true)));
    }

    [Fact]
    public void For_AHandSetPriceBelowCost_ShowsTheLoss() => Assert.Equal(-2.5m, Price(10, new(PriceBy.SetByHand, 7.5m)).Profit);

    [Fact]
    public void For_AnyCost_ReachesTheMarginAsked() =>
        Gen.Select(Gen.Int[1, 100_000], Gen.Int[0, 95], Gen.Int[0, 4].Select(index => Steps[index])).Sample(
            (cents, percent, step) =>
            {
                var price = Price(cents / 100m, new(PriceBy.Margin, percent / 100m, step));
                var before = (price.BeforeTax - step) * (100 - percent) < cents;
                return price.Profit * 100 >= price.BeforeTax * percent && before && price.BeforeTax % step == 0;
            },
            iter: 10_000);

    [Theory]
    [InlineData(PriceBy.Margin, 1, 0.01, 0, "value", "A margin of 100 % cannot be reached. Give 0 to 95 %.")]
    [InlineData(PriceBy.Markup, -0.1, 0.01, 0, "value", "A markup of -10 % cannot be reached. Give 0 to 2000 %.")]
    [InlineData(PriceBy.SetByHand, -1, 0.01, 0, "value", "A price of -1 cannot be asked. Give 0 to 10,000,000.")]
    [InlineData(PriceBy.Markup, 1, 0, 0, "roundUpTo", "A price cannot be rounded up to 0. Give 0.01 to 1,000, in whole cents.")]
    [InlineData(PriceBy.Markup, 1, 0.01, 0.6, "taxRate", "A tax of 60 % cannot be. Give 0 to 50 %, as your local rules say.")]
    public void For_RulesThatCannotBe_NamesThem(PriceBy by, decimal value, decimal step, decimal tax, string field, string message) =>
        Assert.Equal([new Problem(field, message)], KitPrice.For(10, new(by, value, step, tax)).Problems);

    private static KitPrice Price(decimal cost, PriceRule rule) => KitPrice.For(cost, rule).Price!;
}
