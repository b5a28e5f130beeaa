using System.Globalization;
using System.Xml;
using System.Xml.Linq;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;

namespace KittingBee.Web.Documents.Workbook;

/// <summary>One row: texts, whole or decimal numbers, or null for an empty cell.</summary>
internal readonly record struct BulkRow(double Height, object?[] Cells);

/// <summary>
/// Thousands of rows of one sheet, written straight into the saved package: cells made one by one through the workbook library take
/// most of the time and memory of a large class's workbook. The library makes two rows as patterns of the styles: the first for
/// ordinary cells, the second for texts that begin like a formula.
/// </summary>
/// <param name="Sheet">The sheet's name.</param>
/// <param name="FirstRow">Number of the first pattern row; the rows take the patterns' place.</param>
/// <param name="Columns">Cells in a row.</param>
/// <param name="Rows">The rows, made as they are written.</param>
internal sealed record BulkRows(string Sheet, int FirstRow, int Columns, IEnumerable<BulkRow> Rows)
{
    private static readonly XNamespace Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

    /// <summary>Writes the rows into the sheet of a saved workbook.</summary>
    public void WriteInto(WorkbookPart workbook)
    {
        var id = workbook.Workbook.Descendants<Sheet>().Single(sheet => sheet.Name == Sheet).Id!.Value!;
        var part = workbook.GetPartById(id);
        using var pattern = new MemoryStream();
        using (var stream = part.GetStream(FileMode.Open, FileAccess.Read))
        {
            stream.CopyTo(pattern);
        }

        pattern.Position = 0;
        using var reader = XmlReader.Create(pattern, new XmlReaderSettings { IgnoreWhitespace = false });
        using var writer = XmlWriter.Create(part.GetStream(FileMode.Create, FileAccess.Write), new XmlWriterSettings { CloseOutput = true });
        Copy(reader, writer);
    }

    private void Copy(XmlReader reader, XmlWriter writer)
    {
        var styles = new List<string?[]>();
        reader.Read();
        while (!reader.EOF)
        {
            if (reader is { NodeType: XmlNodeType.Element, LocalName: "row" } && int.Parse(reader.GetAttribute("r")!, CultureInfo.InvariantCulture) >= FirstRow)
            {
                styles.Add(StylesOf((XElement)XNode.ReadFrom(reader)));
                continue;
            }

            if (reader is { NodeType: XmlNodeType.EndElement, LocalName: "sheetData" })
            {
                Write(writer, styles);
            }

            CopyNode(reader, writer);
            reader.Read();
        }
    }

    private string?[] StylesOf(XElement row)
    {
        var styles = new string?[Columns];
        foreach (var (index, cell) in row.Elements(Main + "c").Index())
        {
            styles[index] = cell.Attribute("s")?.Value;
        }

        return styles;
    }

    private void Write(XmlWriter writer, List<string?[]> styles)
    {
        var number = FirstRow;
        var letters = Enumerable.Range(0, Columns).Select(column => ((char)('A' + column)).ToString()).ToArray();
        foreach (var row in Rows)
        {
            var at = number.ToString(CultureInfo.InvariantCulture);
            writer.WriteStartElement("row", Main.NamespaceName);
            writer.WriteAttributeString("r", at);
            writer.WriteAttributeString("ht", row.Height.ToString("0.##", CultureInfo.InvariantCulture));
            writer.WriteAttributeString("customHeight", "1");
            for (var column = 0; column < Columns; column++)
            {
                var style = styles[row.Cells[column] is string words && SheetTools.BeginsLikeAFormula(words) ? 1 : 0][column];
                WriteCell(writer, letters[column] + at, style, row.Cells[column]);
            }

            writer.WriteEndElement();
            number++;
        }
    }

    private static void WriteCell(XmlWriter writer, string place, string? style, object? value)
    {
        writer.WriteStartElement("c", Main.NamespaceName);
        writer.WriteAttributeString("r", place);
        writer.WriteAttributeString("s", style ?? "0");
        if (value is string text)
        {
            writer.WriteAttributeString("t", "inlineStr");
            writer.WriteStartElement("is", Main.NamespaceName);
            writer.WriteStartElement("t", Main.NamespaceName);
            writer.WriteAttributeString("xml", "space", null, "preserve");
            writer.WriteString(SheetTools.Printable(text));
            writer.WriteEndElement();
            writer.WriteEndElement();
        }
        else if (value is not null)
        {
            writer.WriteElementString("v", Main.NamespaceName, ((IFormattable)value).ToString(null, CultureInfo.InvariantCulture));
        }

        writer.WriteEndElement();
    }

    // One node without its children: those come by themselves.
    private static void CopyNode(XmlReader reader, XmlWriter writer)
    {
        switch (reader.NodeType)
        {
            case XmlNodeType.Element:
                writer.WriteStartElement(reader.Prefix, reader.LocalName, reader.NamespaceURI);
                writer.WriteAttributes(reader, defattr: true);
                if (reader.IsEmptyElement)
                {
                    writer.WriteEndElement();
                }

                break;
            case XmlNodeType.EndElement:
                writer.WriteFullEndElement();
                break;
            case XmlNodeType.Text or XmlNodeType.SignificantWhitespace or XmlNodeType.Whitespace:
                writer.WriteString(reader.Value);
                break;
            default:
                break; // The declaration is written already; the library writes nothing else.
        }
    }
}
