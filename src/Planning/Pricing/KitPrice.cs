namespace KittingBee.Planning.Pricing;

/// <summary>How a price comes about.</summary>
public enum PriceBy
{
    /// <summary>Profit as a share of the price: price = cost ÷ (1 − margin).</summary>
    Margin,

    /// <summary>Profit as a share of the cost: price = cost × (1 + markup).</summary>
    Markup,

    /// <summary>Entered by the teacher.</summary>
    SetByHand,
}

/// <summary>How a kit is priced.</summary>
/// <param name="By">The way.</param>
/// <param name="Value">Margin 0 to 0.95, markup 0 to 20 (1 is twice the cost), or the price itself.</param>
/// <param name="RoundUpTo">The price is rounded up to a multiple of this, at least 0.01; a price set by hand is left as it is.</param>
/// <param name="TaxRate">Sales tax, 0 to 0.5, as entered: local rules decide which rate there is and whether it is due.</param>
/// <param name="TaxIncluded">False: tax is added to the rounded price. True: the rounded (or entered) price has the tax in it.</param>
public sealed record PriceRule(PriceBy By, decimal Value, decimal RoundUpTo = 0.01m, decimal TaxRate = 0m, bool TaxIncluded = false);

/// <summary>A price, or what is wrong with the rule.</summary>
public sealed record KitPriceResult(KitPrice? Price, IReadOnlyList<Problem> Problems);

/// <summary>A kit's price.</summary>
/// <param name="Cost">What it costs to make.</param>
/// <param name="BeforeTax">What the guild keeps.</param>
/// <param name="Tax">Sales tax, to the cent.</param>
/// <param name="WithTax">What the student pays: <paramref name="BeforeTax"/> + <paramref name="Tax"/>.</param>
public sealed record KitPrice(decimal Cost, decimal BeforeTax, decimal Tax, decimal WithTax)
{
    private const decimal MostMargin = 0.95m;
    private const decimal MostMarkup = 20m;
    private const decimal MostTax = 0.5m;

    /// <summary>What is left of the price after the cost; below zero for a loss.</summary>
    public decimal Profit => BeforeTax - Cost;

    /// <summary>Profit as a share of the price, to four places; 0 for a price of 0.</summary>
    public decimal Margin => BeforeTax == 0 ? 0 : decimal.Round(Profit / BeforeTax, 4);

    /// <summary>Profit as a share of the cost, to four places; null for a cost of 0.</summary>
    public decimal? Markup => Cost == 0 ? null : decimal.Round(Profit / Cost, 4);

    /// <summary>Prices a kit. By margin or markup the price is never less than asked for, because it is rounded up.</summary>
    public static KitPriceResult For(decimal cost, PriceRule rule)
    {
        var problems = Check(cost, rule).ToList();
        if (problems.Count > 0)
        {
            return new(null, problems);
        }

        var net = rule.By switch
        {
            PriceBy.Margin => cost / (1 - rule.Value),
            PriceBy.Markup => cost * (1 + rule.Value),
            _ => rule.Value,
        };
        if (!rule.TaxIncluded)
        {
            var before = rule.By == PriceBy.SetByHand ? Cents.Nearest(net) : Cents.UpTo(net, rule.RoundUpTo);
            var added = Cents.Nearest(before * rule.TaxRate);
            return new(new(cost, before, added, before + added), []);
        }

        var gross = rule.By == PriceBy.SetByHand ? Cents.Nearest(net) : Cents.UpTo(net * (1 + rule.TaxRate), rule.RoundUpTo);
        var tax = Cents.Nearest(gross * rule.TaxRate / (1 + rule.TaxRate));
        return new(new(cost, gross - tax, tax, gross), []);
    }

    private static IEnumerable<Problem> Check(decimal cost, PriceRule rule)
    {
        if (cost is < 0 or > MoneyLimits.Most)
        {
            yield return new("cost", $"A cost of {cost} cannot be priced. Give 0 to {MoneyLimits.Most:N0}.");
        }

        var most = rule.By switch
        {
            PriceBy.Margin => MostMargin,
            PriceBy.Markup => MostMarkup,
            _ => MoneyLimits.Most,
        };
        if (rule.Value < 0 || rule.Value > most)
        {
            yield return new("value", rule.By switch
            {
                PriceBy.Margin => (Sentence)$"A margin of {rule.Value * 100:0.##} % cannot be reached. Give 0 to {most * 100:0} %.",
                PriceBy.Markup => $"A markup of {rule.Value * 100:0.##} % cannot be reached. Give 0 to {most * 100:0} %.",
                _ => $"A price of {rule.Value} cannot be asked. Give 0 to {most:N0}.",
            });
        }

        if (rule.RoundUpTo is < 0.01m or > 1_000m || rule.RoundUpTo != Cents.Nearest(rule.RoundUpTo))
        {
            yield return new("roundUpTo", $"A price cannot be rounded up to {rule.RoundUpTo}. Give 0.01 to 1,000, in whole cents.");
        }

        if (rule.TaxRate is < 0 or > MostTax)
        {
            yield return new("taxRate", $"A tax of {rule.TaxRate * 100:0.##} % cannot be. Give 0 to {MostTax * 100:0} %, as your local rules say.");
        }
    }
}
