using System.IO.Compression;
using System.Text;
using ClosedXML.Excel;
using KittingBee.Web.Classes;
using KittingBee.Web.Rosters;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Rosters;

public sealed class RosterFileTests
{
    private const string List = "Name;E-mail;Colourway\r\nŻaneta Nowak;zaneta@example.org;Dusk\r\nBirgit Søndergaard;;Harvest\r\n";

    public static TheoryData<string> Encodings => ["utf-8", "utf-8 with mark", "utf-16", "utf-16 without mark", "utf-16 big-endian"];

    [Theory]
    [MemberData(nameof(Encodings))]
    public void Text_InAnyCommonEncoding_IsReadTheSame(string encoding)
    {
        byte[] file = encoding switch
        {
            "utf-8" => Encoding.UTF8.GetBytes(List),
            "utf-8 with mark" => [.. Encoding.UTF8.GetPreamble(), .. Encoding.UTF8.GetBytes(List)],
            "utf-16" => [.. Encoding.Unicode.GetPreamble(), .. Encoding.Unicode.GetBytes(List)],
            "utf-16 without mark" => Encoding.Unicode.GetBytes(List),
            _ => [.. Encoding.BigEndianUnicode.GetPreamble(), .. Encoding.BigEndianUnicode.GetBytes(List)],
        };
        var table = RosterFile.Read(file);
        Assert.Null(table.Problem);
        Assert.Equal(["Żaneta Nowak", "zaneta@example.org", "Dusk"], table.Rows[1].Cells);
        Assert.Equal("Birgit Søndergaard", table.Rows[2].Cells[0]);
    }

    [Fact]
    public void Text_InWindows1252_IsReadAndSaidToBe()
    {
        // Byte values of ø (F8) and ’ (92) from the published code page 1252.
        var table = RosterFile.Read([.. "Name\nBirgit S"u8, 0xF8, .. "ndergaard O"u8, 0x92, .. "Malley\n"u8]);
        Assert.Equal("Birgit Søndergaard O’Malley", table.Rows[1].Cells[0]);
        Assert.Contains("1252", table.ReadAs, StringComparison.Ordinal);
    }

    [Fact]
    public void Separators_AndQuotationMarks_AreUnderstood()
    {
        var table = RosterFile.Read(Encoding.UTF8.GetBytes("Name,Note\n\"Monti, Chiara\",\"says \"\"hello\"\"\nand more\"\n\n'=HYPERLINK(1),x\n"));
        Assert.Equal(["Monti, Chiara", "says \"hello\" and more"], table.Rows[1].Cells);
        Assert.Equal("=HYPERLINK(1)", table.Rows[2].Cells[0]);
    }

    [Fact]
    public void Workbook_IsReadWithTheNumbersOfItsRows()
    {
        var table = RosterFile.Read(Workbook(sheet =>
        {
            sheet.Cell(2, 1).SetValue("Name");
            sheet.Cell(2, 3).SetValue("Phone");
            sheet.Cell(4, 1).SetValue("Żaneta Nowak");
            sheet.Cell(4, 3).SetValue(48123456789d);
            sheet.Cell(5, 1).SetValue("007");
        }));
        Assert.Null(table.Problem);
        Assert.Equal([2, 4, 5], table.Rows.Select(row => row.Number));
        Assert.Equal(["Żaneta Nowak", "", "48123456789"], table.Rows[1].Cells);
        Assert.Equal("007", table.Rows[2].Cells[0]);
    }

    // Readings (rPh) stand beside the text that they are of, one for each run: ECMA-376 part 1, 18.4.6.
    [Fact]
    public void Workbook_WithReadingsBesideNames_IsReadWithoutThem()
    {
        const string reading = "<rPh sb=\"0\" eb=\"1\"><t>読み</t></rPh>";
        var table = RosterFile.Read(Zip(
            ("xl/workbook.xml", "<workbook xmlns:r=\"urn:r\"><sheets><sheet r:id=\"a\"/></sheets></workbook>"),
            ("xl/_rels/workbook.xml.rels", "<Relationships><Relationship Id=\"a\" Target=\"s.xml\"/></Relationships>"),
            ("xl/sharedStrings.xml", $"<sst><si><t>青木</t>{reading}{reading}</si><si><t>木下</t>{reading}{reading}<phoneticPr fontId=\"1\"/></si><si><r><t>Una </t></r><r><t>Berg</t></r></si></sst>"),
            ("xl/s.xml", "<worksheet><sheetData><row><c t=\"s\"><v>0</v></c><c t=\"s\"><v>1</v></c><c t=\"s\"><v>2</v></c></row></sheetData></worksheet>")));
        Assert.Equal(["青木", "木下", "Una Berg"], Assert.Single(table.Rows).Cells);
    }

    [Fact]
    public void Refusals_SayWhatToDo()
    {
        Assert.Contains("empty", RosterFile.Read([]).Problem, StringComparison.Ordinal);
        Assert.Contains("old kind", RosterFile.Read([0xD0, 0xCF, 0x11, 0xE0, 1, 2, 3]).Problem, StringComparison.Ordinal);
        Assert.Contains("not a workbook", RosterFile.Read("PK\u0003\u0004 and then nothing of the sort"u8.ToArray()).Problem, StringComparison.Ordinal);
        Assert.Contains("neither a workbook", RosterFile.Read([0x89, 0x50, 0x4E, 0x47, 0, 0, 0, 13, 1, 2]).Problem, StringComparison.Ordinal);
        Assert.Contains("4 MB is the most", RosterFile.Read(new byte[RosterFile.LargestFile + 1]).Problem, StringComparison.Ordinal);
        Assert.Contains("not a workbook", RosterFile.Read(Zip(("readme.txt", "hello"))).Problem, StringComparison.Ordinal);
        Assert.Contains("macros", RosterFile.Read(Zip(("xl/workbook.xml", "<workbook/>"), ("xl/vbaProject.bin", "x"))).Problem, StringComparison.Ordinal);
        Assert.Contains("2,000", RosterFile.Read(Encoding.UTF8.GetBytes(string.Concat(Enumerable.Range(0, 3000).Select(index => $"Student {index}\n")))).Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Workbook_WithAMillionRows_IsRefusedInBoundedMemory()
    {
        var sheet = new StringBuilder("<worksheet><sheetData>");
        for (var row = 1; row <= 1_000_000; row++)
        {
            sheet.Append("<row/>");
        }

        var blank = Package(sheet.Append("</sheetData></worksheet>").ToString());
        Assert.Contains("nothing in it", RosterFile.Read(blank).Problem, StringComparison.Ordinal);
        var full = Package("<worksheet><sheetData>" + string.Concat(Enumerable.Repeat("<row><c t=\"inlineStr\"><is><t>x</t></is></c></row>", 500_000)) + "</sheetData></worksheet>");
        var before = GC.GetAllocatedBytesForCurrentThread();
        Assert.Contains("more than 2,000 rows", RosterFile.Read(full).Problem, StringComparison.Ordinal);
        Assert.True(GC.GetAllocatedBytesForCurrentThread() - before < 20_000_000);
    }

    [Fact]
    public void Workbook_ThatUnpacksToFarMore_IsRefused()
    {
        // 200 MB of spaces pack to some 200 kB.
        using var file = new MemoryStream();
        using (var zip = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            Add(zip, "xl/workbook.xml", "<workbook xmlns:r=\"urn:r\"><sheets><sheet r:id=\"a\"/></sheets></workbook>");
            Add(zip, "xl/_rels/workbook.xml.rels", "<Relationships><Relationship Id=\"a\" Target=\"s.xml\"/></Relationships>");
            using var sheet = zip.CreateEntry("xl/s.xml").Open();
            sheet.Write("<worksheet>"u8);
            var spaces = new byte[1024 * 1024];
            Array.Fill(spaces, (byte)' ');
            for (var megabyte = 0; megabyte < 200; megabyte++)
            {
                sheet.Write(spaces);
            }
        }

        Assert.Contains("unpacks to far more", RosterFile.Read(file.ToArray()).Problem, StringComparison.Ordinal);
    }

    [Fact]
    public void Workbook_ThatDefinesEntities_IsRefused() => Assert.Contains(
        "not a workbook",
        RosterFile.Read(Package("<!DOCTYPE a [<!ENTITY b \"bbbbbbbb\">]><worksheet><sheetData><row><c t=\"inlineStr\"><is><t>&b;</t></is></c></row></sheetData></worksheet>")).Problem,
        StringComparison.Ordinal);

    [Fact]
    public void Rows_WithMistakes_AreEachNamed()
    {
        var table = RosterFile.Read(Encoding.UTF8.GetBytes("First name;Last name;Mail;Colour;Large print;Waiting list\nAda;Lindqvist;a@example.org;dusk;yes;\n;;b@example.org;;;\nUlla;Brand;;Midnight;maybe;\nada;LINDQVIST;;;;x\n"));
        var columns = RosterImport.Guess(table.Rows, RosterImport.HasHeading(table.Rows));
        Assert.Equal([RosterColumn.Name, RosterColumn.Name, RosterColumn.Contact, RosterColumn.Colourway, RosterColumn.LargePrint, RosterColumn.Waiting], columns);
        Colourway[] ways = [new() { Id = 5, Name = "Dusk" }];
        var rows = RosterImport.Read(table.Rows, true, columns, ways, [], false);
        Assert.True(rows[0] is { Problem: null, Student: { Name: "Ada Lindqvist", ColourwayId: 5, LargePrint: true, Waiting: false } });
        Assert.Contains("no name", rows[1].Problem, StringComparison.Ordinal);
        Assert.Contains("“Midnight”", rows[2].Problem, StringComparison.Ordinal);
        Assert.Contains("“maybe”", rows[2].Problem, StringComparison.Ordinal);
        Assert.Contains("stands in row 2 too", rows[3].Problem, StringComparison.Ordinal);
        Assert.Null(RosterImport.Read(table.Rows, true, columns, ways, [], true)[3].Problem);
    }

    [Fact]
    public void Export_IsSafeAndComesBackTheSame()
    {
        Colourway[] ways = [new() { Id = 5, Name = "Dusk; late" }];
        Student[] students =
        [
            new() { Name = "=HYPERLINK(\"http://example.org\")", Contact = "+48 123", Note = "@home", ColourwayId = 5, LeftHanded = true },
            new() { Name = "Żaneta \"Zo\" Nowak, eldest", Contact = "-", Note = "星形", Waiting = true, LargePrint = true },
        ];
        var file = RosterExport.Write(students, ways);
        Assert.DoesNotContain("\n=", Encoding.UTF8.GetString(file), StringComparison.Ordinal);
        Assert.All(RosterFile.Read(file).Rows, row => Assert.Equal(7, row.Cells.Count));
        Assert.Contains("\"'=HYPERLINK(\"\"http", Encoding.UTF8.GetString(file), StringComparison.Ordinal);
        var table = RosterFile.Read(file);
        var back = RosterImport.Read(table.Rows, RosterImport.HasHeading(table.Rows), RosterImport.Guess(table.Rows, true), ways, [], false);
        Assert.Equal(students, back.Select(row => row.Student));
    }

    private static byte[] Workbook(Action<IXLWorksheet> fill)
    {
        using var book = new XLWorkbook();
        fill(book.AddWorksheet("List"));
        using var file = new MemoryStream();
        book.SaveAs(file);
        return file.ToArray();
    }

    private static byte[] Package(string sheet) => Zip(
        ("xl/workbook.xml", "<workbook xmlns:r=\"urn:r\"><sheets><sheet r:id=\"a\"/></sheets></workbook>"),
        ("xl/_rels/workbook.xml.rels", "<Relationships><Relationship Id=\"a\" Target=\"s.xml\"/></Relationships>"),
        ("xl/s.xml", sheet));

    private static byte[] Zip(params (string Name, string Text)[] parts)
    {
        using var file = new MemoryStream();
        using (var zip = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, text) in parts)
            {
                Add(zip, name, text);
            }
        }

        return file.ToArray();
    }

    private static void Add(ZipArchive zip, string name, string text)
    {
        using var part = zip.CreateEntry(name).Open();
        part.Write(Encoding.UTF8.GetBytes(text));
    }
}
