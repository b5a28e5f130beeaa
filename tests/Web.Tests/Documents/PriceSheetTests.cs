using System.Diagnostics;
using System.Globalization;
using ClosedXML.Excel;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Workbook;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Documents;

/// <summary>The workbook's formulas, reckoned by another program, against the program's own figures.</summary>
public sealed class PriceSheetTests
{
    private const string Office = "/usr/bin/soffice";

    [Theory]
    [InlineData("margin")]
    [InlineData("markup")]
    [InlineData("by-hand")]
    public async Task Formulas_GiveTheProgramsOwnFigures(string pricing)
    {
        Assert.SkipUnless(File.Exists(Office), $"There is no spreadsheet program at {Office} to reckon the formulas with.");
        var plan = SampleClass.Plan();
        var record = SampleClass.Record with { Pricing = pricing };
        var price = ClassPricing.Of(record, plan);

        var figures = await Reckoned(KitWorkbook.Build(plan, record));

        Assert.Equal(plan.Kits.Count, figures["Kits made"]);
        AreThoseOf(figures, price, record);
    }

    [Fact]
    public async Task Formulas_FollowAPriceAFeeAndTheNumberOfStudents()
    {
        Assert.SkipUnless(File.Exists(Office), $"There is no spreadsheet program at {Office} to reckon the formulas with.");
        var plan = SampleClass.Plan();
        using var book = new XLWorkbook(new MemoryStream(KitWorkbook.Build(plan, SampleClass.Record)));
        void Type(string what, decimal figure) => book.Worksheet("Price").CellsUsed(cell => cell.GetString() == what).Single().CellRight().SetValue(figure);
        Type("Class fee for a student", 27.5m);
        Type("Notions, each kit", 2.05m);
        Type("Kits paid for", 4);
        using var file = new MemoryStream();
        book.SaveAs(file);
        var figures = await Reckoned(file.ToArray());

        // The program's own figures for a class of four students, cut from the cloth that was bought for six.
        var record = SampleClass.Record with { Fee = 27.5m, Notions = 2.05m };
        var fewer = plan with { Kits = [.. plan.Kits.Where(kit => kit.Number is not (5 or 6))] };
        Assert.Equal(4, fewer.Kits.Count(kit => kit.Role == KitRole.Student));
        Assert.Equal(5, figures["Kits made"]);
        AreThoseOf(figures, ClassPricing.Of(record, fewer), record);
    }

    private static void AreThoseOf(Dictionary<string, decimal> figures, ClassPrice price, ClassRecord record)
    {
        Assert.Equal(price.Cost!.Total, figures["All kits together"]);
        Assert.Equal(price.Cost.PerKit, figures["Cost of each paid kit"]);
        Assert.Equal(price.Price!.BeforeTax, figures["Price of a kit, before tax"]);
        Assert.Equal(price.Price.WithTax, figures["Price with tax"]);
        Assert.Equal(price.Price.Profit, figures["Left after the cost, each kit"]);
        Assert.Equal(price.StudentPays(record), figures["A student pays, before tax"]);
        Assert.Equal((decimal)price.BreakEven!, figures["Students that cover the fixed costs"]);
    }

    private static async Task<Dictionary<string, decimal>> Reckoned(byte[] workbook)
    {
        var folder = Directory.CreateTempSubdirectory("kitting-bee-office-");
        try
        {
            var file = Path.Combine(folder.FullName, "class.xlsx");
            await File.WriteAllBytesAsync(file, workbook, TestContext.Current.CancellationToken);
            var start = new ProcessStartInfo(Office)
            {
                ArgumentList = { $"-env:UserInstallation=file://{folder.FullName}/profile", "--headless", "--convert-to", "xlsx", "--outdir", Path.Combine(folder.FullName, "out"), file },
                RedirectStandardOutput = true,
                RedirectStandardError = true,
            };
            using var office = Process.Start(start)!;
            await office.WaitForExitAsync(TestContext.Current.CancellationToken);
            using var document = SpreadsheetDocument.Open(Path.Combine(folder.FullName, "out", "class.xlsx"), false);
            var book = document.WorkbookPart!;
            var id = book.Workbook.Descendants<Sheet>().Single(sheet => sheet.Name == "Price").Id!.Value!;
            var texts = book.SharedStringTablePart!.SharedStringTable.Elements<SharedStringItem>().Select(item => item.InnerText).ToList();
            return ((WorksheetPart)book.GetPartById(id)).Worksheet.Descendants<Row>()
                .Select(row => row.Elements<Cell>().ToList())
                .Where(cells => cells.Count >= 2 && cells[1].CellFormula is not null)
                .ToDictionary(
                    cells => texts[int.Parse(cells[0].CellValue!.Text, CultureInfo.InvariantCulture)],
                    cells => decimal.Round(decimal.Parse(cells[1].CellValue!.Text, NumberStyles.Float, CultureInfo.InvariantCulture), 6));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}
