using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Html;

namespace KittingBee.Web.Showing;

/// <summary>A small chart of money against a number; the table beside it says the same in figures.</summary>
public static class CurveChart
{
    private const decimal Width = 460;
    private const decimal Height = 190;
    private const decimal Left = 66;
    private const decimal Bottom = 34;
    private const decimal Line = 15;

    /// <summary>Draws the points as a line with a dot for each, the zero line where it is in sight, and one value pointed out.</summary>
    /// <param name="points">At least one; by number.</param>
    /// <param name="title">Name for screen readers.</param>
    /// <param name="across">What the numbers count.</param>
    /// <param name="currency">ISO 4217 code.</param>
    /// <param name="now">The number to point out, or null.</param>
    public static IHtmlContent Draw(IReadOnlyList<(int Number, decimal Money)> points, string title, string across, string currency, int? now)
    {
        var (from, to) = (points[0].Number, points[^1].Number);
        var (low, high) = (Math.Min(0, points.Min(point => point.Money)), Math.Max(0, points.Max(point => point.Money)));
        high = high == low ? low + 1 : high;
        decimal X(int number) => Left + (to == from ? 0 : (number - from) * (Width - Left - 12) / (to - from));
        decimal Y(decimal money) => 12 + ((high - money) * (Height - Bottom - 12) / (high - low));

        // The sums of two lines that lie close together are moved apart.
        decimal Apart(decimal money) => (money == 0 && low < 0 && Y(low) - Y(0) < Line) || (money == high && high > 0 && Y(0) - Y(high) < Line) ? -Line / 2
            : (money == low && low < 0 && Y(low) - Y(0) < Line) || (money == 0 && high > 0 && Y(0) - Y(high) < Line) ? Line / 2 : 0;

        var svg = new StringBuilder();
        svg.Append(CultureInfo.InvariantCulture, $"<svg class=\"chart\" viewBox=\"0 0 {Width} {Height}\" role=\"img\" aria-label=\"{System.Net.WebUtility.HtmlEncode(title)}\">");
        foreach (var money in new[] { low, 0m, high }.Distinct())
        {
            svg.Append(CultureInfo.InvariantCulture, $"<line class=\"{(money == 0 ? "zero" : "grid")}\" x1=\"{Left}\" x2=\"{Width - 12}\" y1=\"{Y(money):0.#}\" y2=\"{Y(money):0.#}\"/><text x=\"{Left - 6}\" y=\"{Y(money) + 4 + Apart(money):0.#}\" text-anchor=\"end\">{System.Net.WebUtility.HtmlEncode(MoneyText.Write(money, currency))}</text>");
        }

        svg.Append(CultureInfo.InvariantCulture, $"<polyline points=\"{string.Join(' ', points.Select(point => string.Create(CultureInfo.InvariantCulture, $"{X(point.Number):0.#},{Y(point.Money):0.#}")))}\"/>");
        foreach (var point in points)
        {
            var here = point.Number == now;
            svg.Append(CultureInfo.InvariantCulture, $"<circle class=\"{(here ? "now" : "")}\" cx=\"{X(point.Number):0.#}\" cy=\"{Y(point.Money):0.#}\" r=\"{(here ? 6 : 2.6)}\"/>");
        }

        foreach (var number in new[] { from, now ?? from, to }.Where(number => number >= from && number <= to).Distinct())
        {
            svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{X(number):0.#}\" y=\"{Height - 16}\" text-anchor=\"middle\">{number}</text>");
        }

        svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{(Width + Left) / 2}\" y=\"{Height - 2}\" text-anchor=\"middle\">{System.Net.WebUtility.HtmlEncode(across)}</text></svg>");
        return new HtmlString(svg.ToString());
    }
}
