using KittingBee.Planning.Measures;
using KittingBee.Web.Forms;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Pages.Classes;

/// <summary>Cloth bought, given out or left over, as typed on the Settle page.</summary>
public sealed class ClothForm
{
    /// <summary><c>bought</c>, <c>given</c> or <c>left</c>, where entries of several kinds come together.</summary>
    public string? What { get; set; }

    public long FabricId { get; set; }

    public string? Length { get; set; }

    /// <summary>Of a leftover; empty for the whole usable width.</summary>
    public string? Width { get; set; }

    /// <summary>Of a leftover; how many alike.</summary>
    public string? Count { get; set; }

    public string? Paid { get; set; }

    public string? Note { get; set; }

    public bool ToShelf { get; set; }

    public FabricPurchase Bought(FormReader reader, long classId) => new()
    {
        ClassId = classId,
        FabricId = FabricId,
        Length = reader.Yardage(nameof(Length), Length, "The length bought"),
        Paid = reader.Money(nameof(Paid), Paid, "The money paid"),
        Note = reader.Optional(nameof(Note), Note, "The note", 200),
    };

    public GivenOut Given(FormReader reader, long classId) => new()
    {
        ClassId = classId,
        FabricId = FabricId,
        Length = reader.Yardage(nameof(Length), Length, "The length given out"),
        Note = reader.Optional(nameof(Note), Note, "The note", 200),
    };

    /// <summary>A leftover; a bare number is a cut size, as a remnant is measured with the ruler.</summary>
    public Leftover Left(FormReader reader, long classId, Length usableWidth)
    {
        var width = string.IsNullOrWhiteSpace(Width) ? usableWidth : reader.Size(nameof(Width), Width, "The width left");
        if (width > usableWidth)
        {
            reader.Wrong(nameof(Width), $"The width left is {Width?.Trim()}, wider than the cloth: check it, or the fabric’s usable width on the shelf.");
        }

        return new()
        {
            ClassId = classId,
            FabricId = FabricId,
            Width = width,
            Length = reader.Size(nameof(Length), Length, "The length left"),
            Count = string.IsNullOrWhiteSpace(Count) ? 1 : reader.Whole(nameof(Count), Count, "How many alike", 1, 10_000),
            ToShelf = ToShelf,
            Note = reader.Optional(nameof(Note), Note, "The note", 200),
        };
    }
}
