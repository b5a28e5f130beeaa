using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Pages.Classes;

/// <summary>One precut as typed.</summary>
public sealed class PrecutLine
{
    public string? Format { get; set; }

    /// <summary>Empty for a strip, which is as long as its fabric is wide.</summary>
    public string? Width { get; set; }

    public string? Length { get; set; }

    public string? PackSize { get; set; }

    /// <summary>Empty where it is not known.</summary>
    public string? PackPrice { get; set; }

    public string? PinkedMargin { get; set; }
}

/// <summary>The class's precuts as typed.</summary>
public sealed class PrecutsForm
{
    private const int MostInPack = 10_000;

    public long Version { get; set; }

    public List<PrecutLine> Lines { get; set; } = [];

    public static PrecutsForm From(ClassPrecuts precuts, ClassHabits habits) => new()
    {
        Version = precuts.Version,
        Lines =
        [
            .. precuts.Rows.Select(row => new PrecutLine
            {
                Format = row.Format,
                Width = row.Width is { } width ? habits.InField(width) : "",
                Length = habits.InField(row.Length),
                PackSize = FormattableString.Invariant($"{row.PackSize}"),
                PackPrice = row.PackPrice is { } price ? MoneyText.InField(price) : "",
                PinkedMargin = row.PinkedMargin == KittingBee.Planning.Measures.Length.Zero ? "0" : habits.InField(row.PinkedMargin),
            }),
        ],
    };

    /// <summary>The rows; what cannot be is said at its field.</summary>
    public IReadOnlyList<PrecutRow> Read(FormReader reader, ClassHabits habits)
    {
        var usual = ClassPrecuts.Usual.Rows;
        if (Lines.Count != usual.Count || Lines.Zip(usual).Any(pair => pair.First.Format != pair.Second.Format))
        {
            reader.Wrong("Lines", "The list of precuts is not whole: load the page again.");
            return [];
        }

        return [.. Lines.Select((line, index) => Read(reader, line, usual[index], index, habits))];
    }

    private static PrecutRow Read(FormReader reader, PrecutLine line, PrecutRow usual, int index, ClassHabits habits)
    {
        var name = Name(usual);
        var (least, most) = (reader.Limit(1, 2), reader.Limit(72, 180));
        Length? width = usual.Width is null ? null : reader.Size(Field(nameof(line.Width)), line.Width, $"The width of the {name}", least, most);
        var length = usual.Width is null
            ? reader.Size(Field(nameof(line.Length)), line.Length, $"The width of the {name}", least, most)
            : reader.Size(Field(nameof(line.Length)), line.Length, $"The length of the {name}", least, most);
        var packSize = reader.Whole(Field(nameof(line.PackSize)), line.PackSize, $"How many are in a pack ({name})", 1, MostInPack);
        decimal? price = string.IsNullOrWhiteSpace(line.PackPrice) ? null : reader.Money(Field(nameof(line.PackPrice)), line.PackPrice, $"The price of a pack ({name})");
        if (price == 0m && reader.IsGood)
        {
            reader.Wrong(Field(nameof(line.PackPrice)), $"The price of a pack ({name}) is 0: leave it empty where it is not known, or put what you have on the shelf.");
        }

        var margin = HasPinkedEdges(usual.Format)
            ? reader.Size(Field(nameof(line.PinkedMargin)), line.PinkedMargin, $"The margin of the {name}", Length.Zero, Length.Min(reader.Limit(1, 2), length.IsPositive ? Length.FromTicks((length.Ticks / 2) - 1) : most))
            : Length.Zero;
        return new() { Format = usual.Format, Width = width, Length = length, PackSize = packSize, PackPrice = price, PinkedMargin = margin };

        string Field(string field) => FormattableString.Invariant($"Lines[{index}].{field}");
    }

    /// <summary>True for precuts that come pinked.</summary>
    public static bool HasPinkedEdges(string? format) => format is FormatCodes.Strips or FormatCodes.FiveInchSquares or FormatCodes.TenInchSquares;

    /// <summary>What a line is about, whatever size it has now.</summary>
    public static string Name(PrecutRow row) => row.Format switch
    {
        FormatCodes.Strips => Say("strip"),
        FormatCodes.FiveInchSquares => Say("small square"),
        FormatCodes.TenInchSquares => Say("large square"),
        FormatCodes.FatQuarter => Say("fat quarter"),
        _ => Say("fat eighth"),
    };
}
