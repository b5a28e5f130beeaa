namespace KittingBee.Planning.Measures;

/// <summary>The units that lengths are typed in, with every way to write them.</summary>
internal static class LengthUnits
{
    private const long TicksPerMetre = 1000 * Length.TicksPerMillimetre;

    private static readonly Dictionary<string, long> Ticks = new(StringComparer.OrdinalIgnoreCase)
    {
        ["in"] = Length.TicksPerInch, ["in."] = Length.TicksPerInch, ["ins"] = Length.TicksPerInch,
        ["inch"] = Length.TicksPerInch, ["inches"] = Length.TicksPerInch,
        ["\""] = Length.TicksPerInch, ["″"] = Length.TicksPerInch, ["”"] = Length.TicksPerInch, ["“"] = Length.TicksPerInch,
        ["''"] = Length.TicksPerInch, ["′′"] = Length.TicksPerInch, ["’’"] = Length.TicksPerInch,
        ["yd"] = Length.TicksPerYard, ["yd."] = Length.TicksPerYard, ["yds"] = Length.TicksPerYard, ["yds."] = Length.TicksPerYard,
        ["yard"] = Length.TicksPerYard, ["yards"] = Length.TicksPerYard,
        ["mm"] = Length.TicksPerMillimetre,
        ["millimetre"] = Length.TicksPerMillimetre, ["millimetres"] = Length.TicksPerMillimetre,
        ["millimeter"] = Length.TicksPerMillimetre, ["millimeters"] = Length.TicksPerMillimetre,
        ["cm"] = 10 * Length.TicksPerMillimetre,
        ["centimetre"] = 10 * Length.TicksPerMillimetre, ["centimetres"] = 10 * Length.TicksPerMillimetre,
        ["centimeter"] = 10 * Length.TicksPerMillimetre, ["centimeters"] = 10 * Length.TicksPerMillimetre,
        ["m"] = TicksPerMetre,
        ["metre"] = TicksPerMetre, ["metres"] = TicksPerMetre, ["meter"] = TicksPerMetre, ["meters"] = TicksPerMetre,
    };

    /// <summary>Ticks in the unit so written, or null when it is no unit.</summary>
    public static long? TicksIn(string name) => Ticks.TryGetValue(name, out var ticks) ? ticks : null;

    /// <summary>The usual way to write a unit.</summary>
    public static string NameOf(LengthUnit unit) => unit switch
    {
        LengthUnit.Inch => "in",
        LengthUnit.Centimetre => "cm",
        LengthUnit.Yard => "yd",
        LengthUnit.Metre => "m",
        _ => throw new ArgumentOutOfRangeException(nameof(unit), unit, "Not a unit."),
    };
}
