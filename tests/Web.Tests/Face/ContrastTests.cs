using System.Globalization;
using System.Text.RegularExpressions;

namespace KittingBee.Web.Tests.Face;

/// <summary>Each pair of colours that the stylesheet puts on each other can be read, in light and in dark.</summary>
public sealed partial class ContrastTests
{
    // WCAG 2.2: 1.4.3 asks 4.5 : 1 of text, 1.4.11 asks 3 : 1 of what must be seen to use a control.
    private const double Text = 4.5;
    private const double Shape = 3.0;

    public static TheoryData<string, string, double> Pairs => new()
    {
        { "ink", "ground", Text }, { "ink", "sheet", Text }, { "ink", "selvage", Text },
        { "soft", "ground", Text }, { "soft", "sheet", Text }, { "soft", "selvage", Text },
        { "indigo", "ground", Text }, { "indigo", "sheet", Text }, { "indigo", "indigo-pale", Text }, { "on-indigo", "indigo", Text },
        { "madder", "ground", Text }, { "madder", "sheet", Text }, { "madder", "madder-pale", Text },
        { "weld", "sheet", Text }, { "weld", "weld-pale", Text }, { "moss", "sheet", Text }, { "moss", "moss-pale", Text },
        { "ink", "indigo-pale", Text }, { "ink", "madder-pale", Text }, { "ink", "weld-pale", Text }, { "ink", "moss-pale", Text },
        { "edge", "ground", Shape }, { "edge", "sheet", Shape },
    };

    // Decoration (hairlines, the selvage's weave, stitches still open beside the words that say the same) has no least contrast.
    private static readonly string[] Decoration = ["rule", "selvage-tick", "open-stitch"];

    [Theory]
    [MemberData(nameof(Pairs))]
    public void Tokens_CanBeTold(string front, string back, double least)
    {
        var (light, dark) = Tokens();
        foreach (var (scheme, tokens) in new[] { ("light", light), ("dark", dark) })
        {
            var contrast = Contrast(tokens[front], tokens[back]);
            Assert.True(contrast >= least, string.Create(CultureInfo.InvariantCulture, $"{front} on {back} in {scheme}: {contrast:0.00} : 1, {least} : 1 is needed."));
        }
    }

    [Fact]
    public void EveryColour_IsInAPairAndInBothSchemes()
    {
        var (light, dark) = Tokens();
        Assert.Equal(light.Keys.Order(), dark.Keys.Order());
        var paired = Pairs.SelectMany(row => new[] { row.Data.Item1, row.Data.Item2 }).Concat(Decoration).ToHashSet();
        Assert.Equal([], light.Keys.Where(name => !paired.Contains(name)));
    }

    // Contrasts on white by the formula of WCAG 2.2 (relative luminance), reckoned by hand: #767676 is the lightest grey that text may have on white,
    // #949494 the lightest that a control's edge may have.
    [Theory]
    [InlineData("#000000", 21.0)]
    [InlineData("#595959", 7.005)]
    [InlineData("#767676", 4.542)]
    [InlineData("#777777", 4.478)]
    [InlineData("#949494", 3.033)]
    [InlineData("#959595", 2.995)]
    public void Formula_GivesTheKnownContrasts(string colour, double known) => Assert.Equal(known, Contrast(colour, "#ffffff"), 0.0006);

    internal static double Contrast(string one, string other)
    {
        var (a, b) = (Luminance(one), Luminance(other));
        return (Math.Max(a, b) + 0.05) / (Math.Min(a, b) + 0.05);
    }

    private static double Luminance(string colour)
    {
        var digits = colour.Length == 4 ? string.Concat(colour.Skip(1).Select(digit => $"{digit}{digit}")) : colour[1..];
        double Part(int start)
        {
            var share = int.Parse(digits.AsSpan(start, 2), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture) / 255.0;
            return share <= 0.04045 ? share / 12.92 : Math.Pow((share + 0.055) / 1.055, 2.4);
        }

        return (0.2126 * Part(0)) + (0.7152 * Part(2)) + (0.0722 * Part(4));
    }

    private static (Dictionary<string, string> Light, Dictionary<string, string> Dark) Tokens()
    {
        using var stream = typeof(Web.Showing.Words).Assembly.GetManifestResourceStream("wwwroot.site.css")!;
        using var reader = new StreamReader(stream);
        var css = reader.ReadToEnd();
        var roots = Root().Matches(css).Select(root => Token().Matches(root.Groups[1].Value).ToDictionary(token => token.Groups[1].Value, token => token.Groups[2].Value)).ToList();
        Assert.Equal(2, roots.Count);
        return (roots[0], roots[1]);
    }

    [GeneratedRegex(@":root \{([^}]*)\}")]
    private static partial Regex Root();

    [GeneratedRegex(@"--([a-z-]+): (#[0-9a-f]{3,6})\b")]
    private static partial Regex Token();
}
