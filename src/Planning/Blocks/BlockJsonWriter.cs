using System.Text.Json;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Writes the fields that a unit has, and no others.</summary>
internal static class BlockJsonWriter
{
    public static void Write(Utf8JsonWriter writer, Block block, bool outermost)
    {
        writer.WriteStartObject();
        if (outermost)
        {
            writer.WriteNumber("version", BlockJson.Version);
        }

        writer.WriteString("name", block.Name);
        Write(writer, "columns", block.Columns);
        Write(writer, "rows", block.Rows);
        writer.WriteStartArray("fabrics");
        foreach (var fabric in block.Fabrics)
        {
            writer.WriteStartObject();
            writer.WriteString("letter", fabric.Letter);
            writer.WriteString("name", fabric.Name);
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        writer.WriteStartArray("units");
        foreach (var unit in block.Units)
        {
            Write(writer, unit);
        }

        writer.WriteEndArray();
        writer.WriteEndObject();
    }

    private static void Write(Utf8JsonWriter writer, Unit unit)
    {
        writer.WriteStartObject();
        writer.WriteNumber("row", unit.Row);
        writer.WriteNumber("column", unit.Column);
        WriteUnless(writer, "rowSpan", unit.RowSpan, 1);
        WriteUnless(writer, "columnSpan", unit.ColumnSpan, 1);
        writer.WriteString("kind", UnitKinds.Name(unit.Kind));
        if (unit.Fabrics.Count > 0)
        {
            Write(writer, "fabrics", unit.Fabrics);
        }

        WriteUnless(writer, "turn", unit.Turn, 0);
        Write(writer, "corner", unit.Corner);
        if (unit.Widths is { } widths)
        {
            Write(writer, "widths", widths);
        }

        if (unit.Patches is { } patches)
        {
            writer.WriteStartArray("patches");
            foreach (var row in patches)
            {
                writer.WriteStartArray();
                foreach (var letter in row)
                {
                    writer.WriteStringValue(letter);
                }

                writer.WriteEndArray();
            }

            writer.WriteEndArray();
        }

        if (unit.Inner is { } inner)
        {
            writer.WritePropertyName("inner");
            Write(writer, inner, outermost: false);
        }

        Write(writer, "cutWidth", unit.CutWidth);
        Write(writer, "cutHeight", unit.CutHeight);
        if (unit.Count is { } count)
        {
            writer.WriteNumber("count", count);
        }

        writer.WriteEndObject();
    }

    private static void WriteUnless(Utf8JsonWriter writer, string name, int value, int usual)
    {
        if (value != usual)
        {
            writer.WriteNumber(name, value);
        }
    }

    private static void Write(Utf8JsonWriter writer, string name, Length? length)
    {
        if (length is { } given)
        {
            writer.WriteNumber(name, Inches(given));
        }
    }

    private static void Write(Utf8JsonWriter writer, string name, IReadOnlyList<Length> lengths)
    {
        writer.WriteStartArray(name);
        foreach (var length in lengths)
        {
            writer.WriteNumberValue(Inches(length));
        }

        writer.WriteEndArray();
    }

    private static void Write(Utf8JsonWriter writer, string name, IReadOnlyList<string?> letters)
    {
        writer.WriteStartArray(name);
        foreach (var letter in letters)
        {
            if (letter is null)
            {
                writer.WriteNullValue();
            }
            else
            {
                writer.WriteStringValue(letter);
            }
        }

        writer.WriteEndArray();
    }

    /// <summary>Nine places are far finer than a tick (2.5 millionths of an inch), so that reading gives the same tick back.</summary>
    public static decimal Inches(Length length) => decimal.Round(length.Inches, 9) / 1.000000000000000000000000000m;
}
