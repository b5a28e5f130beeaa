using System.Globalization;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Pages.Classes;

/// <summary>A class's money as typed.</summary>
public sealed class PriceForm
{
    public string? Notions { get; set; }

    public string? Packaging { get; set; }

    public string? LabourPerHour { get; set; }

    public string? SecondsPerStroke { get; set; }

    public string? PackingMinutes { get; set; }

    public string? FixedCosts { get; set; }

    public string? Fee { get; set; }

    public string? TaxPercent { get; set; }

    public string? Pricing { get; set; }

    public string? MarginPercent { get; set; }

    public string? MarkupPercent { get; set; }

    public string? PriceByHand { get; set; }

    public string? PriceStep { get; set; }

    public long Version { get; set; }

    public static PriceForm From(ClassRecord record) => new()
    {
        Notions = MoneyText.InField(record.Notions),
        Packaging = MoneyText.InField(record.Packaging),
        LabourPerHour = MoneyText.InField(record.LabourPerHour),
        SecondsPerStroke = record.SecondsPerStroke.ToString(CultureInfo.InvariantCulture),
        PackingMinutes = record.PackingMinutes.ToString(CultureInfo.InvariantCulture),
        FixedCosts = MoneyText.InField(record.FixedCosts),
        Fee = MoneyText.InField(record.Fee),
        TaxPercent = MoneyText.PercentInField(record.TaxPercent),
        Pricing = record.Pricing,
        MarginPercent = MoneyText.PercentInField(record.MarginPercent),
        MarkupPercent = MoneyText.PercentInField(record.MarkupPercent),
        PriceByHand = MoneyText.InField(record.PriceByHand),
        PriceStep = MoneyText.InField(record.PriceStep),
        Version = record.Version,
    };

    /// <summary>The class with what was typed put over it.</summary>
    public ClassRecord Read(FormReader reader, ClassRecord record)
    {
        var step = reader.Money(nameof(PriceStep), PriceStep, "The step that prices are rounded up to");
        if (step < 0.01m && !string.IsNullOrWhiteSpace(PriceStep))
        {
            reader.Wrong(nameof(PriceStep), "A price cannot be rounded up to 0: type 0.01 for none, 0.50 for the next half.");
        }

        return record with
        {
            Notions = reader.Money(nameof(Notions), Notions, "Notions"),
            Packaging = reader.Money(nameof(Packaging), Packaging, "Packaging and printing"),
            LabourPerHour = reader.Money(nameof(LabourPerHour), LabourPerHour, "Labour"),
            SecondsPerStroke = reader.Whole(nameof(SecondsPerStroke), SecondsPerStroke, "Seconds for a stroke", 0, 600),
            PackingMinutes = reader.Whole(nameof(PackingMinutes), PackingMinutes, "Minutes to pack a kit", 0, 600),
            FixedCosts = reader.Money(nameof(FixedCosts), FixedCosts, "Room and teacher"),
            Fee = reader.Money(nameof(Fee), Fee, "The class fee"),
            TaxPercent = reader.Percent(nameof(TaxPercent), TaxPercent, "Sales tax", 50m),
            Pricing = reader.Choice(nameof(Pricing), Pricing, "How the kit is priced", "margin", "markup", "by-hand"),
            MarginPercent = reader.Percent(nameof(MarginPercent), MarginPercent, "The margin", 95m),
            MarkupPercent = reader.Percent(nameof(MarkupPercent), MarkupPercent, "The markup", 2000m),
            PriceByHand = reader.Money(nameof(PriceByHand), PriceByHand, "The price set by hand"),
            PriceStep = step < 0.01m ? 0.01m : step,
            Version = Version,
        };
    }
}
