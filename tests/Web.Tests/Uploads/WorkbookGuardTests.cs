using System.IO.Compression;
using System.Text;
using ClosedXML.Excel;
using KittingBee.Web.Uploads;

namespace KittingBee.Web.Tests.Uploads;

public sealed class WorkbookGuardTests
{
    private const string Types = "<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\"/>";

    [Fact]
    public void Workbook_OfOurs_MayBeOpened()
    {
        using var book = new XLWorkbook();
        for (var row = 1; row <= 500; row++)
        {
            for (var column = 1; column <= 12; column++)
            {
                book.Worksheets.FirstOrDefault()?.Cell(row, column).SetValue(row * column);
                _ = book.Worksheets.Count == 0 ? book.AddWorksheet("Kits") : null;
            }
        }

        using var file = new MemoryStream();
        book.SaveAs(file);
        Assert.Null(WorkbookGuard.Fault(file));
        Assert.Equal(0, file.Position);
    }

    [Fact]
    public void Bomb_OfAGigabyte_IsRefusedInBoundedMemory()
    {
        // 1 GB of spaces packs to about 1 MB: far over the limit, and never held.
        using var file = new MemoryStream();
        using (var zip = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            Add(zip, "[Content_Types].xml", Types);
            using var sheet = zip.CreateEntry("xl/worksheets/sheet1.xml").Open();
            sheet.Write("<worksheet>"u8);
            var spaces = new byte[1024 * 1024];
            Array.Fill(spaces, (byte)' ');
            for (var megabyte = 0; megabyte < 1024; megabyte++)
            {
                sheet.Write(spaces);
            }
        }

        Assert.InRange(file.Length, 500_000, 3_000_000);
        var before = GC.GetAllocatedBytesForCurrentThread();
        Assert.Contains("far more", WorkbookGuard.Fault(file), StringComparison.Ordinal);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 2 * WorkbookGuard.MostUnpacked + 20_000_000);
    }

    [Theory]
    [InlineData("<!DOCTYPE a [<!ENTITY b \"bb\">]><worksheet>&b;</worksheet>", "cannot be read")]
    [InlineData("<!DOCTYPE a [<!ENTITY b SYSTEM \"file:///etc/hostname\">]><worksheet>&b;</worksheet>", "cannot be read")]
    [InlineData("<worksheet><sheetData><row r=\"1048576\"/></sheetData></worksheet>", "far more")]
    [InlineData("<worksheet><sheetData>", "cannot be read")]
    public void Part_ThatIsNoPlainSheet_IsRefused(string sheet, string said) =>
        Assert.Contains(said, WorkbookGuard.Fault(Zip(("[Content_Types].xml", Types), ("xl/worksheets/sheet1.xml", sheet))), StringComparison.Ordinal);

    [Fact]
    public void Cells_WithoutEnd_AreRefused() => Assert.Contains(
        "far more",
        WorkbookGuard.Fault(Zip(("[Content_Types].xml", Types), ("xl/worksheets/sheet1.xml", $"<worksheet><sheetData><row>{string.Concat(Enumerable.Repeat("<c/>", WorkbookGuard.MostCells + 1))}</row></sheetData></worksheet>"))),
        StringComparison.Ordinal);

    [Theory]
    [InlineData("xl/vbaProject.bin")]
    [InlineData("xl/macrosheets/sheet1.xml")]
    [InlineData("xl/externalLinks/externalLink1.xml")]
    [InlineData("xl/embeddings/oleObject1.bin")]
    public void Package_WithProgramsOrLinks_IsRefused(string part) =>
        Assert.Contains("macros or outside links", WorkbookGuard.Fault(Zip(("[Content_Types].xml", Types), (part, "<a/>"))), StringComparison.Ordinal);

    [Fact]
    public void File_ThatIsNoPackage_IsRefused()
    {
        Assert.Contains("cannot be read", WorkbookGuard.Fault(new MemoryStream("PK\u0003\u0004 and then nothing"u8.ToArray())), StringComparison.Ordinal);
        Assert.Contains("cannot be read", WorkbookGuard.Fault(new MemoryStream([])), StringComparison.Ordinal);
        Assert.Contains("cannot be read", WorkbookGuard.Fault(Zip(("readme.txt", "hello"))), StringComparison.Ordinal);
    }

    private static MemoryStream Zip(params (string Name, string Text)[] parts)
    {
        var file = new MemoryStream();
        using (var zip = new ZipArchive(file, ZipArchiveMode.Create, leaveOpen: true))
        {
            foreach (var (name, text) in parts)
            {
                Add(zip, name, text);
            }
        }

        return file;
    }

    private static void Add(ZipArchive zip, string name, string text)
    {
        using var part = zip.CreateEntry(name).Open();
        part.Write(Encoding.UTF8.GetBytes(text));
    }
}
