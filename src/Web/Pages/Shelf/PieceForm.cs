using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Pages.Shelf;

/// <summary>Cloth on hand as typed.</summary>
public sealed class PieceForm
{
    public string? Kind { get; set; }

    public string? Width { get; set; }

    public string? Length { get; set; }

    public string? Count { get; set; }

    public string? Note { get; set; }

    public long Version { get; set; }

    public static PieceForm New(Fabric fabric, ClassHabits habits) =>
        new() { Kind = "remnant", Width = habits.InField(fabric.UsableWidth), Count = "1" };

    public static PieceForm From(ShelfPiece piece, ClassHabits habits) => new()
    {
        Kind = piece.Kind,
        Width = habits.InField(piece.Width),
        Length = piece.Kind == "remnant" ? habits.InField(piece.Length) : habits.YardageInField(piece.Length),
        Count = piece.Count.ToString(System.Globalization.CultureInfo.InvariantCulture),
        Note = piece.Note,
        Version = piece.Version,
    };

    public ShelfPiece Read(FormReader reader, Fabric fabric, ClassHabits habits)
    {
        var kind = reader.Choice(nameof(Kind), Kind, "The kind", "remnant", "length", "bolt");
        var width = reader.Size(nameof(Width), Width, "The width");
        if (width > fabric.UsableWidth)
        {
            reader.Wrong(nameof(Width), $"The width is {Width?.Trim()}, but {fabric.Name} is {habits.Show(fabric.UsableWidth)} wide between the selvages: measure again, or change the fabric’s usable width.");
        }

        var length = kind == "remnant"
            ? reader.Size(nameof(Length), Length, "The length")
            : reader.Yardage(nameof(Length), Length, "The length");
        return new ShelfPiece
        {
            FabricId = fabric.Id,
            Kind = kind,
            Width = width,
            Length = length,
            Count = reader.Whole(nameof(Count), Count, "How many", 1, 10_000),
            Note = reader.Optional(nameof(Note), Note, "The note", 200),
            Version = Version,
        };
    }
}
