using ClosedXML.Excel;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Documents.Workbook;

/// <summary>The whole class as a workbook.</summary>
public static class KitWorkbook
{
    /// <summary>The media type of an .xlsx file.</summary>
    public const string MediaType = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet";

    /// <summary>Summary, shopping list, a ticket for each fabric, kits, price, and the settle sheet to be filled in.</summary>
    public static byte[] Build(ClassPlan plan, ClassRecord record)
    {
        using var book = new XLWorkbook();
        book.Style.Font.SetFontName(SavedPackage.FontName).Font.SetFontSize(SavedPackage.FontSize);
        book.Properties.Title = plan.Title;
        book.Properties.Author = "Kitting Bee";
        book.Properties.Subject = Say("Kits, cutting tickets and shopping list");
        book.FullCalculationOnLoad = true;

        var names = new SheetNames();
        SummarySheet.Add(book, names.Take(Say("Summary")), plan);
        ShoppingSheet.Add(book, names.Take(Say("Shopping")), plan, plan.Shopping());

        // Names that the later sheets need come before those made from fabric names.
        var kits = names.Take(Say("Kits"));
        var price = names.Take(Say("Price"));
        var settle = names.Take(Say("Settle"));
        foreach (var (fabric, index) in plan.Fabrics.Where(fabric => fabric.HasTicket).Select((fabric, index) => (fabric, index)))
        {
            TicketSheet.Add(book, names.Take(Say($"Ticket {fabric.Name}")), $"Ticket{index + 1}", plan, Ticket.Of(fabric));
        }

        var kitLines = KitsSheet.Add(book, kits, plan);
        PriceSheet.Add(book, price, plan, record, ClassPricing.Of(record, plan));
        SettleSheet.Add(book, settle, plan);

        using var file = new MemoryStream();
        book.SaveAs(file);
        SavedPackage.Mend(file, kitLines);
        return file.ToArray();
    }
}
