using System.Globalization;

namespace KittingBee.Web.Showing;

/// <summary>Money as a person reads it.</summary>
public static class MoneyText
{
    private static readonly Dictionary<string, string> Signs = new(StringComparer.Ordinal)
    {
        ["USD"] = "$", ["CAD"] = "$", ["AUD"] = "$", ["NZD"] = "$", ["EUR"] = "€", ["GBP"] = "£", ["INR"] = "₹", ["ZAR"] = "R ", ["CHF"] = "CHF ",
        ["SEK"] = "SEK ", ["NOK"] = "NOK ", ["DKK"] = "DKK ",
    };

    /// <summary>Codes offered in the settings; any other ISO 4217 code with hundredths works too.</summary>
    public static IReadOnlyList<string> Offered { get; } = [.. Signs.Keys];

    /// <summary>An amount with its currency, to the hundredth: <c>$12.50</c>, or <c>12,50 €</c> where the reader's language puts it so.</summary>
    public static string Write(decimal amount, string currency)
    {
        var sign = Signs.TryGetValue(currency, out var known) ? known : currency + " ";
        var culture = Language.Current.Culture;
        var number = Math.Abs(amount).ToString("#,##0.00", culture);
        return (amount < 0 ? "−" : "") + (SignFollows(culture) ? $"{number}\u00A0{sign.Trim()}" : sign + number);
    }

    /// <summary>An amount as it stands in a form field: no sign, no separators.</summary>
    public static string InField(decimal amount) => amount.ToString("0.00", CultureInfo.InvariantCulture);

    // Patterns 1 and 3 are n$ and n $.
    private static bool SignFollows(CultureInfo culture) => culture.NumberFormat.CurrencyPositivePattern is 1 or 3;

    /// <summary>A percentage as it stands in a form field: no more decimals than it has.</summary>
    public static string PercentInField(decimal? percent) => percent?.ToString("0.##", CultureInfo.InvariantCulture) ?? "";
}
