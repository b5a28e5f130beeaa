using System.Globalization;
using System.Text.RegularExpressions;
using KittingBee.Planning;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using Microsoft.AspNetCore.Mvc.ModelBinding;

namespace KittingBee.Web.Forms;

/// <summary>
/// Reads what was typed into a form. What cannot be read is said at its field, naming the value and the remedy; the caller
/// stores nothing unless <see cref="IsGood"/>.
/// </summary>
/// <param name="state">Where messages go; what was typed stays in it.</param>
/// <param name="prefix">Name of the form's model, before the dot.</param>
/// <param name="metric">True where a number without a unit is centimetres or metres.</param>
public sealed partial class FormReader(ModelStateDictionary state, string prefix, bool metric)
{
    // A bolt is some 100 yd; ten times that is a slip of the finger.
    private static readonly Length Longest = Length.FromYards(1000m);

    private const decimal MostMoney = 1_000_000m;

    public bool IsGood => state.ErrorCount == 0;

    /// <summary>A limit that is round in the reader's own measure.</summary>
    public Length Limit(int inches, int centimetres) => metric ? Length.FromMillimetres(10m * centimetres) : Length.FromInches(inches);

    public void Wrong(string field, Sentence message) => WrongAsSaid(field, Say(message));

    /// <summary>A message that is made elsewhere, as it is.</summary>
    public void WrongAsSaid(string field, string message) => state.AddModelError($"{prefix}.{field}", message);

    /// <summary>A text that must be there, trimmed.</summary>
    public string Needed(string field, string? text, Sentence what, int longest = 200)
    {
        var value = Optional(field, text, what, longest);
        if (value.Length == 0)
        {
            Wrong(field, $"{Say(what)} is missing: type it here.");
        }

        return value;
    }

    /// <summary>A text that may be empty, trimmed.</summary>
    public string Optional(string field, string? text, Sentence what, int longest = 1000)
    {
        var value = (text ?? "").Trim();
        if (value.Length > longest)
        {
            Wrong(field, $"{Say(what)} is {value.Length} characters long; {longest} is the most.");
        }

        return value;
    }

    /// <summary>A cut size; a bare number is inches or centimetres.</summary>
    public Length Size(string field, string? text, Sentence what, bool mayBeZero = false) =>
        Measure(field, text, what, metric ? LengthUnit.Centimetre : LengthUnit.Inch, mayBeZero);

    /// <summary>A cut size of at least <paramref name="least"/> and at most <paramref name="most"/>.</summary>
    public Length Size(string field, string? text, Sentence what, Length least, Length most)
    {
        var before = state.ErrorCount;
        var value = Size(field, text, what, mayBeZero: least == Length.Zero);
        if (state.ErrorCount == before && (value < least || value > most))
        {
            if (value > most)
            {
                Wrong(field, $"{Say(what)} is {text?.Trim()}: it may be {Shown(most)} at most. Check the number and its unit.");
            }
            else
            {
                Wrong(field, $"{Say(what)} is {text?.Trim()}: it must be {Shown(least)} at least. Check the number and its unit.");
            }
        }

        return value;
    }

    /// <summary>A length of yardage; a bare number is yards or metres.</summary>
    public Length Yardage(string field, string? text, Sentence what, bool mayBeZero = false) =>
        Measure(field, text, what, metric ? LengthUnit.Metre : LengthUnit.Yard, mayBeZero);

    public decimal Money(string field, string? text, Sentence what)
    {
        var value = Number(field, text, what, 0m, MostMoney);
        if (!decimal.IsInteger(value * 100m))
        {
            Wrong(field, $"{Say(what)} is {text?.Trim()}: money goes to the hundredth, such as 12.50.");
        }

        return value;
    }

    public decimal Percent(string field, string? text, Sentence what, decimal most = 100m)
    {
        var value = Number(field, text?.Trim().TrimEnd('%'), what, 0m, most);
        if (!decimal.IsInteger(value * 100m))
        {
            Wrong(field, $"{Say(what)} is {text?.Trim()}: a percentage goes to the hundredth, such as 8.25.");
        }

        return value;
    }

    public int Whole(string field, string? text, Sentence what, int least, int most)
    {
        var typed = (text ?? "").Trim();
        if (int.TryParse(typed, NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var value) && value >= least && value <= most)
        {
            return value;
        }

        if (typed.Length == 0)
        {
            Wrong(field, $"{Say(what)} is missing: type a whole number from {least} to {most}.");
        }
        else
        {
            Wrong(field, $"{Say(what)} is “{typed}”: type a whole number from {least} to {most}.");
        }

        return least;
    }

    /// <summary>One of the values that the form offers.</summary>
    public string Choice(string field, string? text, Sentence what, params ReadOnlySpan<string> offered)
    {
        foreach (var value in offered)
        {
            if (value == text)
            {
                return value;
            }
        }

        Wrong(field, $"{Say(what)}: choose one from the list.");
        return offered[0];
    }

    private string Shown(Length length) => LengthText.Write(length, metric ? LengthStyle.Centimetres : LengthStyle.Eighths);

    private Length Measure(string field, string? text, Sentence what, LengthUnit unit, bool mayBeZero)
    {
        var reading = LengthText.Read(text, unit);
        if (!reading.IsLength)
        {
            Wrong(field, $"{Say(what)}: {reading.Why}");
            return Length.Zero;
        }

        if (reading.Value < Length.Zero || (reading.Value == Length.Zero && !mayBeZero))
        {
            Wrong(field, $"{Say(what)} is {text?.Trim()}: it must be longer than nothing.");
        }
        else if (reading.Value > Longest)
        {
            Wrong(field, $"{Say(what)} is {text?.Trim()}, more than 1,000 yd: check the unit.");
        }

        return reading.Value;
    }

    private decimal Number(string field, string? text, Sentence what, decimal least, decimal most)
    {
        var typed = (text ?? "").Trim();
        // 1,200 is twelve hundred to some and one and a fifth to others: neither may be guessed where money is meant.
        if (ThreeAfterComma().IsMatch(typed))
        {
            Wrong(field, $"{Say(what)} is “{typed}”, which can be read two ways: type {typed.Replace(",", "", StringComparison.Ordinal)} or {typed.Replace(',', '.')} instead.");
            return least;
        }

        const NumberStyles Allowed = NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign;
        if (!decimal.TryParse(typed.Replace(',', '.'), Allowed, CultureInfo.InvariantCulture, out var value))
        {
            if (typed.Length == 0)
            {
                Wrong(field, $"{Say(what)} is missing: type a number, 0 for none.");
            }
            else
            {
                Wrong(field, $"{Say(what)} is “{typed}”: type a number such as 12.50, without a sign for the currency.");
            }

            return least;
        }

        if (value < least || value > most)
        {
            Wrong(field, $"{Say(what)} is {typed}: it must be from {least} to {most:#,##0.##}.");
            return least;
        }

        return value;
    }

    [GeneratedRegex(@"^[+-]?[0-9]{1,3},[0-9]{3}$")]
    private static partial Regex ThreeAfterComma();
}
