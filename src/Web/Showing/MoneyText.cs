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

    /// <summary>An amount with its currency, to the hundredth: <c>$12.50</c>.</summary>
    public static string Write(decimal amount, string currency)
    {
        var sign = Signs.TryGetValue(currency, out var known) ? known : currency + " ";
        return (amount < 0 ? "−" : "") + sign + Math.Abs(amount).ToString("#,##0.00", CultureInfo.InvariantCulture);
    }

    /// <summary>An amount as it stands in a form field: no sign, no separators.</summary>
    public static string InField(decimal amount) => amount.ToString("0.00", CultureInfo.InvariantCulture);

    /// <summary>A percentage as it stands in a form field: no more decimals than it has.</summary>
    public static string PercentInField(decimal? percent) => percent?.ToString("0.##", CultureInfo.InvariantCulture) ?? "";
}
