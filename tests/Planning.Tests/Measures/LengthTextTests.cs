using System.Globalization;
using System.Text;
using CsCheck;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Measures;

public sealed class LengthTextTests
{
    private static readonly Length Half = Length.FromInches(4, 1, 2);

    [Theory]
    [InlineData("4 1/2")]
    [InlineData("4-1/2")]
    [InlineData("4\u20111/2")]
    [InlineData("4½")]
    [InlineData("4 ½")]
    [InlineData("4-½")]
    [InlineData("4 ⅟2")]
    [InlineData("4.5")]
    [InlineData("4,5")]
    [InlineData("4.50")]
    [InlineData("4 1/2\"")]
    [InlineData("4½″")]
    [InlineData("4½”")]
    [InlineData("4½''")]
    [InlineData("4 1/2 in")]
    [InlineData("4 1/2 in.")]
    [InlineData("4.5inches")]
    [InlineData("4 1⁄2")]
    [InlineData("4 2/4")]
    [InlineData("  4\u00A01/2\u202Fin ")]
    [InlineData("11.43 cm")]
    [InlineData("114.3mm")]
    [InlineData("0.1143 m")]
    [InlineData("1/8 yd")]
    [InlineData("0,125 Yard")]
    public void Read_FourAndAHalfInchesInAnyForm_IsExact(string text) => Assert.Equal(new LengthReading(Half, null), LengthText.Read(text));

    [Theory]
    [InlineData("0", 0, 0, 1)]
    [InlineData("↉", 0, 0, 1)]
    [InlineData(".5", 0, 1, 2)]
    [InlineData("½", 0, 1, 2)]
    [InlineData("3⅞", 3, 7, 8)]
    [InlineData("1 3/8 yd", 49, 1, 2)]
    [InlineData("⅔ yd", 24, 0, 1)]
    [InlineData("14 31/32", 14, 31, 32)]
    [InlineData("4 127/128", 4, 127, 128)]
    public void Read_OtherLengths_AreExact(string text, long whole, long numerator, long denominator) =>
        Assert.Equal(new LengthReading(Length.FromInches(whole, numerator, denominator), null), LengthText.Read(text));

    // 11.5 cm = 115 mm and 1.25 m = 1250 mm by the metric prefixes.
    [Theory]
    [InlineData("11.5 cm", 115)]
    [InlineData("115 mm", 115)]
    [InlineData("1.25 m", 1250)]
    [InlineData("1,25 metres", 1250)]
    [InlineData("60 centimeters", 600)]
    public void Read_MetricLengths_AreExact(string text, int millimetres) =>
        Assert.Equal(new LengthReading(Length.FromMillimetres(millimetres), null), LengthText.Read(text));

    [Theory]
    [InlineData(LengthUnit.Inch, 25.4)]
    [InlineData(LengthUnit.Centimetre, 10)]
    [InlineData(LengthUnit.Yard, 914.4)]
    [InlineData(LengthUnit.Metre, 1000)]
    public void Read_NumberWithoutUnit_IsInTheUnitGiven(LengthUnit unit, decimal millimetres) =>
        Assert.Equal(Length.FromMillimetres(millimetres), LengthText.Read("1", unit).Value);

    // Every character that Unicode decomposes as <fraction> with a denominator: the runtime's own table of numeric values is the check.
    [Fact]
    public void Read_EveryUnicodeFractionCharacter_HasItsNumericValue()
    {
        var fractions = Enumerable.Range(0, 0x10000).Select(code => (char)code)
            .Where(c => CharUnicodeInfo.GetUnicodeCategory(c) == UnicodeCategory.OtherNumber)
            .Where(c => c.ToString().Normalize(NormalizationForm.FormKD) is var parts
                && parts.Contains('\u2044', StringComparison.Ordinal) && char.IsAsciiDigit(parts[^1]))
            .ToList();
        Assert.Equal(19, fractions.Count);
        foreach (var fraction in fractions)
        {
            var value = (decimal)CharUnicodeInfo.GetNumericValue(fraction);
            var read = LengthText.Read(fraction.ToString());
            Assert.True(read.IsLength, read.Error);
            Assert.InRange(read.Value.Inches - value, -0.000002m, 0.000002m);
        }
    }

    [Theory]
    [InlineData(null, "No length was typed. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("", "No length was typed. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData(" \u00A0\t", "No length was typed. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("4 1/0", "“4 1/0” is not a length: the fraction at character 3 divides by zero. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("1/2/3", "“1/2/3” is not a length: there is a second fraction bar at character 4. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("-3", "“-3” is not a length: “-” at character 1 makes it less than zero. A length is zero or more.")]
    [InlineData("−3", "“−3” is not a length: “−” at character 1 makes it less than zero. A length is zero or more.")]
    [InlineData("1e400", "“1e400” is not a length: “e400” at character 2 is not a unit. The units are in, yd, cm, mm and m.")]
    [InlineData("４½", "“４½” is not a length: “４” at character 1 is not one of the plain digits 0 to 9. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("4４", "“4４” is not a length: “４” at character 2 is not one of the plain digits 0 to 9. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("٤", "“٤” is not a length: “٤” at character 1 is not one of the plain digits 0 to 9. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("4 ½ ½", "“4 ½ ½” is not a length: there is a second number at character 5, after the fraction. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("½4", "“½4” is not a length: there is a second number at character 2, after the fraction. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("4 5", "“4 5” is not a length: there is a second number at character 3 without a fraction bar. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("4.5 1/2", "“4.5 1/2” is not a length: there is a second number at character 5, after the decimals. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("4.", "“4.” is not a length: digits are missing after “.” at character 2. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("4.5.6", "“4.5.6” is not a length: “.” at character 4 does not belong there. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("1,250 mm", "“1,250 mm” is not a length: the comma at character 2 can be read two ways. Type 1.250 or 1250.")]
    [InlineData("41/2", "“41/2” is not a length: the fraction 41/2 at character 1 is one or more. Put a space after the whole number, as in 4 1/2.")]
    [InlineData("4 1/", "“4 1/” is not a length: the number under the fraction bar is missing at character 5. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("/2", "“/2” is not a length: “/” at character 1 does not belong there. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("4-", "“4-” is not a length: a fraction is missing after “-” at character 2. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("4 - 1/2", "“4 - 1/2” is not a length: “-” at character 3 does not belong there. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("1' 6\"", "“1' 6\"” is not a length: feet at character 2 are not read here. Type inches or yards.")]
    [InlineData("≈4½″", "“≈4½″” is not a length: “≈” at character 1 marks a rounded length. Type the exact one.")]
    [InlineData("4 1/2 furlongs", "“4 1/2 furlongs” is not a length: “furlongs” at character 7 is not a unit. The units are in, yd, cm, mm and m.")]
    [InlineData("in", "“in” is not a length: “i” at character 1 does not belong there. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("NaN", "“NaN” is not a length: “N” at character 1 does not belong there. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("4\u202E", "“4\uFFFD” is not a length: “\uFFFD” at character 2 does not belong there. Type it like 4 1/2, 4½″ or 11.5 cm.")]
    [InlineData("999999999999999999", "“999999999999999999” is not a length: it is longer than 10,000 yd. Check the number and the unit.")]
    public void Read_BadText_NamesTextAndPlace(string? text, string message)
    {
        var reading = LengthText.Read(text);
        Assert.False(reading.IsLength);
        Assert.Equal(message, reading.Error);
        Assert.Equal(Length.Zero, reading.Value);
    }

    [Fact]
    public void Read_TenThousandDigits_IsRefusedByItsSizeAlone() => Assert.Equal(
        "“777777777777777777777777…” is not a length: it has 10,000 characters, and a length needs at most 60. Type it like 4 1/2, 4½″ or 11.5 cm.",
        LengthText.Read(new string('7', 10_000)).Error);

    [Fact]
    public void Read_AnyText_NeverThrowsAndSaysSomething() =>
        Gen.OneOf(Gen.String, Gen.String["0123456789 /.,-½⅟⁄″'incmyd≈４"]).Sample(
            text =>
            {
                var reading = LengthText.Read(text);
                return reading.IsLength ? reading.Value >= Length.Zero : reading.Error!.EndsWith('.');
            },
            iter: 20_000);
}
