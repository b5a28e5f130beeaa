using ClosedXML.Excel;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Documents.Workbook;

/// <summary>
/// The price of a kit with live formulas: change a tinted figure and the rest follows. The formulas round as the program does.
/// Fabric is entered as a sum, because it is bought in steps that only a new plan knows.
/// </summary>
internal static class PriceSheet
{
    private const string MoneyFormat = "#,##0.00";
    private const string CountFormat = "0";
    private const string ShareFormat = "0.##%";
    private static string NoNumber => Say("none");

    public static void Add(XLWorkbook book, string name, ClassPlan plan, ClassRecord record, ClassPrice price)
    {
        var sheet = book.AddWorksheet(name);
        sheet.Heading(Say("Price"), Say($"In {record.Currency}. Change the tinted figures; the others follow. Whether tax is due, and which, is for your local rules to say."));
        const int headings = 4;
        sheet.Headings(headings, Say("What"), Say("Figure"), Say("Note"));
        var cells = new Dictionary<string, string>();
        var row = headings;

        Figure("paid", Say("Kits paid for"), price.Request.PaidKits, CountFormat, Say("Students, and kits to claim"));
        Figure("extra", Say("Kits beyond these"), price.Request.Kits - price.Request.PaidKits, CountFormat, Say("Spares and samples, carried by those who pay"));
        Figure("fabric", Say("Fabric as bought"), price.Request.FabricBought, MoneyFormat, Say($"For {price.Request.Kits} kits: plan again in the program for another number"));
        Figure("notions", Say("Notions, each kit"), record.Notions, MoneyFormat);
        Figure("packaging", Say("Packaging and printing, each kit"), record.Packaging, MoneyFormat);
        Figure("cuttingMinutes", Say("Minutes to cut the class"), price.CuttingMinutes, CountFormat);
        Figure("packingMinutes", Say("Minutes to pack a kit"), record.PackingMinutes, CountFormat);
        Figure("labour", Say("Labour, an hour"), record.LabourPerHour, MoneyFormat);
        Figure("fixed", Say("Room, teacher and the like"), record.FixedCosts, MoneyFormat, Say("Once for the class"));
        Figure("fee", Say("Class fee for a student"), record.Fee, MoneyFormat);
        Figure("margin", Say("Margin"), record.MarginPercent / 100m, ShareFormat, Say("Profit as a share of the price"));
        Figure("markup", Say("Markup"), record.MarkupPercent / 100m, ShareFormat, Say("Profit as a share of the cost"));
        Figure("byHand", Say("Price set by hand"), record.PriceByHand, MoneyFormat);
        Figure("step", Say("Rounded up to"), record.PriceStep, MoneyFormat);
        Figure("tax", Say("Sales tax"), record.TaxPercent / 100m, ShareFormat);
        Choice(record.Pricing switch { "markup" => Say("markup"), "by-hand" => Say("by hand"), _ => Say("margin") });

        Result("kits", Say("Kits made"), "{paid}+{extra}", CountFormat);
        Result("total", Say("All kits together"), "{fabric}+ROUND({notions}*{kits},2)+ROUND({packaging}*{kits},2)+ROUND({cuttingMinutes}*{labour}/60,2)+ROUND({packingMinutes}*{labour}*{kits}/60,2)", MoneyFormat);
        Result("cost", Say("Cost of each paid kit"), "IF({kits}=0,0,ROUNDUP(ROUND({total}/IF({paid}=0,{kits},{paid}),6),2))", MoneyFormat, Say("All kits together ÷ kits paid for, rounded up so that these carry the whole"));
        Result("price", Say("Price of a kit, before tax"), $"ROUND(IF({{by}}=\"{Say("by hand")}\",{{byHand}},CEILING(ROUND(IF({{by}}=\"{Say("markup")}\",{{cost}}*(1+{{markup}}),{{cost}}/(1-{{margin}})),6),{{step}})),2)", MoneyFormat);
        Result("taxed", Say("Price with tax"), "{price}+ROUND({price}*{tax},2)", MoneyFormat);
        Result("profit", Say("Left after the cost, each kit"), "{price}-{cost}", MoneyFormat);
        Result("pays", Say("A student pays, before tax"), "{fee}+{price}", MoneyFormat);
        Result("outcome", Say("Left over from the class"), "{paid}*{pays}-{fixed}-{total}", MoneyFormat);
        Result("breakEven", Say("Students that cover the fixed costs"), $"IF({{fixed}}<=0,IF({{pays}}>={{cost}},0,\"{NoNumber}\"),IF({{pays}}<={{cost}},\"{NoNumber}\",ROUNDUP(ROUND({{fixed}}/({{pays}}-{{cost}}),9),0)))", CountFormat, Say("At this cost a kit"));

        sheet.Table("Price", headings, row, 3);
        sheet.Range(headings + 1, 2, row, 2).AddConditionalFormat().WhenLessThan(0).Font.SetFontColor(XLColor.FromHtml("#9A3324"));
        sheet.Widths(36, 13, 50);
        sheet.PrintSetup(plan, headings);

        void Figure(string key, string what, decimal value, string format, string note = "")
        {
            Row(key, what, note).Number(value, format);
            var cell = sheet.Range(row, 2, row, 2);
            cell.FillIn();
            var validation = cell.SetDataValidation();
            if (format == ShareFormat)
            {
                validation.Decimal.Between(0, key == "margin" ? 0.95 : key == "tax" ? 0.5 : 20);
            }
            else
            {
                validation.Decimal.EqualOrGreaterThan(key == "step" ? 0.01 : 0);
            }

            validation.ErrorTitle = Say("A number, please");
            validation.ErrorMessage = key == "margin" ? Say($"{what}: enter a plain number that is not below zero and not above 95 %.") : Say($"{what}: enter a plain number that is not below zero.");
        }

        void Choice(string value)
        {
            Row("by", Say("Priced by"), Say("margin, markup or by hand")).Text(value).Style.Alignment.SetHorizontal(XLAlignmentHorizontalValues.Right);
            var cell = sheet.Range(row, 2, row, 2);
            cell.FillIn();
            var validation = cell.SetDataValidation();
            validation.List($"\"{Say("margin")},{Say("markup")},{Say("by hand")}\"", true);
            validation.ErrorTitle = Say("One of three, please");
            validation.ErrorMessage = Say("Choose one of the three from the list.");
        }

        void Result(string key, string what, string formula, string format, string note = "")
        {
            var cell = Row(key, what, note);
            cell.Formula(cells.Aggregate(formula, (text, known) => text.Replace("{" + known.Key + "}", known.Value, StringComparison.Ordinal)), format);
            cell.Style.Font.SetBold().Alignment.SetHorizontal(XLAlignmentHorizontalValues.Right);
        }

        IXLCell Row(string key, string what, string note)
        {
            row++;
            sheet.Cell(row, 1).Text(what);
            sheet.Cell(row, 3).Wrap(note, 48);
            sheet.Cell(row, 3).Style.Alignment.SetHorizontal(XLAlignmentHorizontalValues.Left).Alignment.SetIndent(1);
            cells[key] = $"$B${row}";
            return sheet.Cell(row, 2);
        }
    }
}
