using System.IO.Compression;
using System.Text;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Rosters;

namespace KittingBee.Web.Tests.Fuzzing;

/// <summary>No reader fails, hangs or swells on spoiled input: each gives a value or says what is wrong.</summary>
public sealed class ReadersTests
{
    private const string Block = """
        { "name": "Pair", "columns": [4, "4 1/2"], "rows": ["4"],
          "fabrics": [ { "letter": "A", "name": "ground" }, { "letter": "B", "name": "star" } ],
          "units": [ { "row": 0, "column": 0, "kind": "half-square-triangle", "fabrics": ["A", "B"], "turn": 90 },
                     { "row": 0, "column": 1, "rowSpan": 1, "columnSpan": 1, "kind": "checkerboard", "patches": [["A","B"],["B","A"]] } ] }
        """;

    [Fact]
    public Task Lengths() => Read("lengths", 0.25, text =>
    {
        foreach (var unit in Enum.GetValues<LengthUnit>())
        {
            var reading = LengthText.Read(text, unit);
            if (reading.IsLength)
            {
                LengthText.Write(reading.Value);
            }
        }
    }, "4 1/2", "4-1/2", "4½", "4,5", "4 1/2\"", "11.5 cm", "115 mm", "1 3/8 yd", "1.25 m", "12⅛″", "-3");

    [Fact]
    public Task TypedCutLists() => Read("typed cut lists", 0.15, text =>
    {
        var reading = TypedCutList.Read(text, new CuttingRules());
        Assert.NotNull(reading.Problems);
    }, "A 4 squares 4 1/2\nB: 2 @ 2 x 14½\n8 - 4\" sq white", "background: 4 squares 3 1/2\nstar 8 @ 2 1/2 x 4 1/2\n1 5″ square", "C 12 strips 2,5 x 40");

    [Fact]
    public Task BlocksAsJson() => Read("blocks as JSON", 0.12, text => BlockJson.Read(text), Block);

    [Fact]
    public Task ProjectsAsJson() => Read("projects as JSON", 0.06, text => ProjectJson.Read(text), """
        { "across": 3, "down": "4", "setting": "on-point", "sashing": { "width": 2, "fabric": "A", "cornerstone": "B" },
          "borders": [ { "width": 4, "fabric": "A" } ], "binding": { "strip": 2.5, "fabric": "B" }, "backing": { "overhang": 4 } }
        """);

    [Fact]
    public Task UnitsAsLines() => Read("units as lines", 0.08, text =>
    {
        UnitLines.Read(text, LengthUnit.Inch);
        Assert.NotNull(UnitLines.Write(UnitLines.Read(text, LengthUnit.Centimetre).Units));
        SizeList.Read(text, LengthUnit.Centimetre, "columns");
    }, "1,2 half-square triangle A/B turn 90", "1-2,3 rails A B A", "3,1 checkerboard A B / B A", "2 2 3 1/2 4", "3 x 4", "2,2 flying geese A B turn 180");

    [Fact]
    public Task PastedRosters() => Read("pasted rosters", 0.06, text => RosterLines.Read(text, [], [], duplicatesMeant: false),
        "Ada Lind\tada@example.org\tLake\tneeds a chair\nÉ. Möller; ; Moss; left-handed\n\"Winter, Jo\", jo@example.org, , large print, waiting");

    [Fact]
    public Task RosterFiles() => Read("roster files", 0.06, bytes => RosterFile.Read(bytes),
        [.. new[] { "Name,Contact\r\n\"Lind, Ada\",ada@example.org\r\nMöller,\r\n", "Name;Note\n\"a \"\"b\"\"\";c\n" }
            .SelectMany(text => new[] { Encoding.UTF8.GetBytes(text), Encoding.Unicode.GetPreamble().Concat(Encoding.Unicode.GetBytes(text)).ToArray(), Encoding.Latin1.GetBytes(text) })]);

    [Fact]
    public Task Workbooks_SpoiledAsFiles() => Read("workbooks, the file spoiled", 0.06, bytes => RosterFile.Read(bytes), [Workbook(SheetXml)]);

    [Fact]
    public Task Workbooks_SpoiledInside() => Read("workbooks, the sheet inside spoiled", 0.06, bytes => RosterFile.Read(Workbook(bytes)), [SheetXml]);

    private static readonly byte[] SheetXml = """
        <?xml version="1.0" encoding="UTF-8"?>
        <worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData>
        <row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="inlineStr"><is><t>Contact</t></is></c></row>
        <row r="2"><c r="A2" t="str"><f>"A"&amp;"da"</f><v>Ada</v></c><c r="B2"><v>12.5</v></c><c r="AA2" t="b"><v>1</v></c></row>
        <row r="9"><c r="A9" t="e"><v>#REF!</v></c></row></sheetData></worksheet>
        """u8.ToArray();

    private static byte[] Workbook(byte[] sheet)
    {
        using var file = new MemoryStream();
        using (var package = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            Put(package, "xl/workbook.xml", """<workbook xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:r="http://schemas.openxmlformats.org/officeDocument/2006/relationships"><sheets><sheet name="Roster" sheetId="1" r:id="rId1"/></sheets></workbook>"""u8.ToArray());
            Put(package, "xl/_rels/workbook.xml.rels", """<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/worksheet" Target="worksheets/sheet1.xml"/></Relationships>"""u8.ToArray());
            Put(package, "xl/sharedStrings.xml", """<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><si><t>Name</t></si></sst>"""u8.ToArray());
            Put(package, "xl/worksheets/sheet1.xml", sheet);
        }

        return file.ToArray();
    }

    private static void Put(ZipArchive package, string name, byte[] content)
    {
        using var stream = package.CreateEntry(name).Open();
        stream.Write(content);
    }

    // Readers of text get what a form or a decoded body gives them: always a string, whatever the bytes were.
    private static Task Read(string name, double share, Action<string> read, params string[] good) =>
        Read(name, share, bytes => read(Encoding.UTF8.GetString(bytes)), [.. good.Select(Encoding.UTF8.GetBytes)]);

    private static Task Read(string name, double share, Action<byte[]> read, byte[][] good) =>
        FuzzRun.Over(name, FuzzRun.Inputs(share), good, bytes =>
        {
            read(bytes);
            return Task.CompletedTask;
        });
}
