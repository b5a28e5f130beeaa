using ClosedXML.Excel;
using DocumentFormat.OpenXml.Packaging;
using DocumentFormat.OpenXml.Spreadsheet;
using DocumentFormat.OpenXml.Validation;
using KittingBee.Web.Documents.Workbook;

namespace KittingBee.Web.Tests.Documents;

public sealed class KitWorkbookTests
{
    [Fact]
    public void Workbook_HasTheSheetsOfTheJob()
    {
        using var book = Open(KitWorkbook.Build(SampleClass.Plan(), SampleClass.Record));

        Assert.Equal(
            ["Summary", "Shopping", "Ticket Linen ground", "Ticket =Indigo -deep-", "Ticket Madder", "Kits", "Price", "Settle"],
            book.Worksheets.Select(sheet => sheet.Name));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Workbook_IsValidOpenXml(bool metric)
    {
        using var document = SpreadsheetDocument.Open(new MemoryStream(KitWorkbook.Build(SampleClass.Plan(metric: metric), SampleClass.Record)), false);

        // The library writes some attributes of newer versions without declaring them; what it validates against is 2013's schema.
        var errors = new OpenXmlValidator(DocumentFormat.OpenXml.FileFormatVersions.Office2013).Validate(document, TestContext.Current.CancellationToken).Select(error => $"{error.Part?.Uri} {error.Path?.XPath}: {error.Description}");
        Assert.Empty(errors);
    }

    [Fact]
    public void TextThatBeginsLikeAFormula_StaysText()
    {
        using var book = Open(KitWorkbook.Build(SampleClass.Plan(), SampleClass.Record));

        var cell = book.Worksheet("Kits").CellsUsed().First(cell => cell.GetString() == SampleClass.Formula);
        Assert.False(cell.HasFormula);
        Assert.Equal(XLDataType.Text, cell.DataType);
        Assert.True(cell.Style.IncludeQuotePrefix);
        Assert.DoesNotContain(book.Worksheet("Summary").CellsUsed(), used => used.HasFormula);
    }

    [Fact]
    public void Kits_HoldEveryLineOfEveryKit_AndBreakPagesBetweenThem()
    {
        var plan = SampleClass.Plan();
        using var book = Open(KitWorkbook.Build(plan, SampleClass.Record));
        var sheet = book.Worksheet("Kits");

        var table = Assert.Single(sheet.Tables);
        Assert.Equal(plan.Kits.Count * plan.CutList.Fabrics.Sum(fabric => fabric.Pieces.Count), table.DataRange.RowCount());
        Assert.Equal(plan.Kits.Count - 1, sheet.PageSetup.RowBreaks.Count);
        Assert.Equal(
            plan.Kits.Count * plan.CutList.Fabrics.Sum(fabric => fabric.Pieces.Sum(piece => piece.Count)),
            table.DataRange.Rows().Sum(row => row.Cell(8).GetValue<int>()));
    }

    [Fact]
    public void HeadingRows_AreRepeatedByAbsoluteReference()
    {
        using var document = SpreadsheetDocument.Open(new MemoryStream(KitWorkbook.Build(SampleClass.Plan(), SampleClass.Record)), false);
        var titles = document.WorkbookPart!.Workbook.DefinedNames!.Elements<DefinedName>().Where(name => name.Name == "_xlnm.Print_Titles").Select(name => name.Text).ToArray();

        Assert.Equal(8, titles.Length);
        Assert.All(titles, title => Assert.Matches(@"!\$\d+:\$\d+$", title));
    }

    [Theory]
    [InlineData(false, XLPaperSize.LetterPaper)]
    [InlineData(true, XLPaperSize.A4Paper)]
    public void EverySheet_IsSetUpForThePaperOfTheClass(bool metric, XLPaperSize paper)
    {
        using var book = Open(KitWorkbook.Build(SampleClass.Plan(metric: metric), SampleClass.Record));

        Assert.All(book.Worksheets, sheet =>
        {
            Assert.Equal(paper, sheet.PageSetup.PaperSize);
            Assert.True(sheet.SheetView.SplitRow > 0);
        });
        using var document = SpreadsheetDocument.Open(new MemoryStream(KitWorkbook.Build(SampleClass.Plan(metric: metric), SampleClass.Record)), false);
        Assert.All(document.WorkbookPart!.WorksheetParts, part => Assert.Contains("Page &P of &N", part.Worksheet.Descendants<OddFooter>().Single().Text, StringComparison.Ordinal));
    }

    [Fact]
    public void EverySheet_IsATable_AsWideAsThePaper_AndLeadsNowhereElse()
    {
        var file = KitWorkbook.Build(SampleClass.Plan(), SampleClass.Record);
        using var book = Open(file);
        Assert.All(book.Worksheets, sheet => Assert.Single(sheet.Tables));

        // The Kits sheet keeps its page breaks instead, which fitting would drop: its columns fit 11 in across, less two margins.
        Assert.All(book.Worksheets, sheet => Assert.Equal(sheet.Name == "Kits" ? 0 : 1, sheet.PageSetup.PagesWide));
        Assert.Equal("Lantern Star table mat", book.Properties.Title);
        using var document = SpreadsheetDocument.Open(new MemoryStream(file), false);
        var parts = document.WorkbookPart!.Parts.Select(part => part.OpenXmlPart).ToList();
        Assert.Empty(parts.OfType<ExternalWorkbookPart>());
        Assert.All(parts, part => Assert.Empty(part.ExternalRelationships.Concat<ReferenceRelationship>(part.HyperlinkRelationships)));
    }

    [Fact]
    public void WhatIsFilledIn_IsChecked_AndShortKitsStandOut()
    {
        using var book = Open(KitWorkbook.Build(SampleClass.Plan(), SampleClass.Record));
        var kits = book.Worksheet("Kits");
        var last = kits.Tables.Single().DataRange.LastRow().RowNumber();
        var ticks = Assert.Single(kits.DataValidations);
        Assert.Equal((XLAllowedValues.List, "\"✓,short\"", $"I4:I{last}"), (ticks.AllowedValues, ticks.Value, Assert.Single(ticks.Ranges).RangeAddress.ToString()));
        var shown = Assert.Single(kits.ConditionalFormats);
        Assert.Equal((XLConditionalFormatType.Expression, "$I4=\"short\"", $"A4:J{last}"), (shown.ConditionalFormatType, shown.Values[1].Value, shown.Range.RangeAddress.ToString()));
        Assert.All(new[] { "Price", "Settle", "Shopping" }, name => Assert.NotEmpty(book.Worksheet(name).DataValidations));

        // Inches are numbers shown as fractions, money has two places.
        Assert.Equal((4.5, "# ??/??"), (kits.Cell(4, 6).GetDouble(), kits.Cell(4, 6).Style.NumberFormat.Format));
        var fee = book.Worksheet("Price").CellsUsed(cell => cell.GetString() == "Class fee for a student").Single().CellRight();
        Assert.Equal((20, "#,##0.00"), (fee.GetDouble(), fee.Style.NumberFormat.Format));
    }

    [Fact]
    public void Workbook_OfFiveHundredKits_HoldsEveryLine()
    {
        var plan = SampleClass.Plan(500);
        var file = KitWorkbook.Build(plan, SampleClass.Record);
        using var book = Open(file);
        Assert.Equal(501 * 5, Assert.Single(book.Worksheet("Kits").Tables).DataRange.RowCount());
    }

    [Fact]
    public void Shopping_AddsUpToThePlans()
    {
        var plan = SampleClass.Plan();
        using var book = Open(KitWorkbook.Build(plan, SampleClass.Record));
        var table = Assert.Single(book.Worksheet("Shopping").Tables);

        Assert.Equal(plan.Fabrics.Sum(fabric => fabric.Plan!.Buy.Cost), table.DataRange.Rows().Sum(row => row.Cell(6).GetValue<decimal>()));
    }

    private static XLWorkbook Open(byte[] file) => new(new MemoryStream(file));
}
