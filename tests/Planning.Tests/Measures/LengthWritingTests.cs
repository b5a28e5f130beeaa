using CsCheck;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Measures;

public sealed class LengthWritingTests
{
    private const int RandomValues = 10_000;

    [Theory]
    [InlineData("4.5", LengthStyle.Eighths, "4½″")]
    [InlineData("0.5", LengthStyle.Eighths, "½″")]
    [InlineData("0", LengthStyle.Eighths, "0″")]
    [InlineData("12", LengthStyle.Eighths, "12″")]
    [InlineData("3.125", LengthStyle.Eighths, "3⅛″")]
    [InlineData("3.1875", LengthStyle.Eighths, "≈3¼″")]
    [InlineData("3.1875", LengthStyle.Sixteenths, "3\u00A03⁄16″")]
    [InlineData("0.1875", LengthStyle.Sixteenths, "3⁄16″")]
    [InlineData("3.75", LengthStyle.Sixteenths, "3¾″")]
    [InlineData("11.99", LengthStyle.Sixteenths, "≈12″")]
    [InlineData("11.99", LengthStyle.ThirtySeconds, "≈12″")]
    [InlineData("11.97", LengthStyle.ThirtySeconds, "≈11\u00A031⁄32″")]
    [InlineData("0.99", LengthStyle.Eighths, "≈1″")]
    [InlineData("0.01", LengthStyle.Eighths, "≈0″")]
    [InlineData("-0.01", LengthStyle.Eighths, "≈0″")]
    [InlineData("-4.5", LengthStyle.Eighths, "−4½″")]
    [InlineData("-11.99", LengthStyle.Sixteenths, "≈−12″")]
    [InlineData("-0.125", LengthStyle.Eighths, "−⅛″")]
    [InlineData("4.5", LengthStyle.DecimalInches, "4.5″")]
    [InlineData("4.125", LengthStyle.DecimalInches, "≈4.13″")]
    [InlineData("4.999", LengthStyle.DecimalInches, "≈5″")]
    [InlineData("1", LengthStyle.Centimetres, "≈2.5\u00A0cm")]
    [InlineData("-1", LengthStyle.Centimetres, "≈−2.5\u00A0cm")]
    [InlineData("5", LengthStyle.Centimetres, "12.7\u00A0cm")]
    [InlineData("50", LengthStyle.Centimetres, "127\u00A0cm")]
    public void Write_Inches_FollowsTheStyle(string inches, LengthStyle style, string expected) =>
        Assert.Equal(expected, LengthText.Write(Length.FromInches(decimal.Parse(inches, System.Globalization.CultureInfo.InvariantCulture)), style));

    // Shop lengths in eighths of a yard: 1/8 yd = 4 1/2 in by definition of the yard.
    [Theory]
    [InlineData("49.5", false, "1⅜\u00A0yd")]
    [InlineData("4.5", false, "⅛\u00A0yd")]
    [InlineData("72", false, "2\u00A0yd")]
    [InlineData("12", false, "≈⅜\u00A0yd")]
    [InlineData("35.9", false, "≈1\u00A0yd")]
    [InlineData("50", true, "1.27\u00A0m")]
    [InlineData("36", true, "≈0.91\u00A0m")]
    [InlineData("-36", true, "≈−0.91\u00A0m")]
    public void WriteYardage_Inches_IsInShopUnits(string inches, bool metric, string expected) =>
        Assert.Equal(expected, LengthText.WriteYardage(Length.FromInches(decimal.Parse(inches, System.Globalization.CultureInfo.InvariantCulture)), metric));

    [Theory]
    [InlineData(LengthStyle.Eighths, 8)]
    [InlineData(LengthStyle.Sixteenths, 16)]
    [InlineData(LengthStyle.ThirtySeconds, 32)]
    [InlineData(LengthStyle.DecimalInches, 100)]
    public void Write_InchesOnTheStep_ReadsBackTheSame(LengthStyle style, int stepsInInch) =>
        Gen.Long[0, 300_000].Sample(steps => ReadsBack(Length.FromTicks(steps * (Length.TicksPerInch / stepsInInch)), style), iter: RandomValues);

    [Fact]
    public void Write_MillimetresAsCentimetres_ReadsBackTheSame() =>
        Gen.Long[0, 5_000_000].Sample(millimetres => ReadsBack(Length.FromMillimetres(millimetres), LengthStyle.Centimetres), iter: RandomValues);

    [Theory]
    [InlineData(false, Length.TicksPerYard / 8)]
    [InlineData(true, Length.TicksPerMillimetre * 10)]
    public void WriteYardage_OnTheStep_ReadsBackTheSame(bool metric, long step) => Gen.Long[0, 50_000].Sample(
        steps =>
        {
            var length = Length.FromTicks(steps * step);
            return LengthText.Read(LengthText.WriteYardage(length, metric)) == new LengthReading(length, null);
        },
        iter: RandomValues);

    [Fact]
    public void Write_AnyLength_IsMarkedUnlessExactAndNeverFarOff() => Gen.Select(Gen.Long[0, 4_000_000_000], Gen.Enum<LengthStyle>()).Sample(
        (ticks, style) =>
        {
            var length = Length.FromTicks(ticks);
            var written = LengthText.Write(length, style);
            var read = LengthText.Read(written.TrimStart('≈'));
            var far = Length.FromTicks(Math.Abs((read.Value - length).Ticks));
            return read.IsLength && written.StartsWith('≈') == (read.Value != length) && far * 2 <= StepOf(style);
        },
        iter: RandomValues);

    [Theory]
    [InlineData(long.MaxValue)]
    [InlineData(long.MinValue)]
    public void Write_TheFarthestLengths_DoesNotThrow(long ticks) =>
        Assert.All(Enum.GetValues<LengthStyle>(), style => Assert.NotEmpty(LengthText.Write(Length.FromTicks(ticks), style)));

    private static bool ReadsBack(Length length, LengthStyle style) =>
        LengthText.Read(LengthText.Write(length, style)) == new LengthReading(length, null);

    private static Length StepOf(LengthStyle style) => style switch
    {
        LengthStyle.Eighths => Length.FromInches(0, 1, 8),
        LengthStyle.Sixteenths => Length.FromInches(0, 1, 16),
        LengthStyle.ThirtySeconds => Length.FromInches(0, 1, 32),
        LengthStyle.DecimalInches => Length.FromInches(0, 1, 100),
        _ => Length.FromMillimetres(1),
    };
}
