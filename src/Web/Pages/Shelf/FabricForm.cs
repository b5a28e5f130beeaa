using System.Text.RegularExpressions;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Pages.Shelf;

/// <summary>A fabric as typed.</summary>
public sealed partial class FabricForm
{
    public string? Name { get; set; }

    public string? Colour { get; set; }

    public string? UsableWidth { get; set; }

    public string? Price { get; set; }

    public string? PricePer { get; set; }

    public string? Increment { get; set; }

    public string? Minimum { get; set; }

    public bool Directional { get; set; }

    public string? ShrinkageAlong { get; set; }

    public string? ShrinkageAcross { get; set; }

    public string? SupplierNote { get; set; }

    public long Version { get; set; }

    /// <summary>What a new fabric starts from: 40 in usable and eighths of a yard, or 100 cm and 10 cm.</summary>
    public static FabricForm New(ClassHabits habits) => From(
        new Fabric
        {
            Colour = "#7a8fb0",
            UsableWidth = habits.Metric ? Length.FromMillimetres(1000m) : Length.FromInches(40),
            PricePer = habits.Metric ? "metre" : "yard",
            Increment = habits.Metric ? Length.FromMillimetres(100m) : Length.FromYards(0.125m),
            Minimum = habits.Metric ? Length.FromMillimetres(100m) : Length.FromYards(0.125m),
        },
        habits);

    public static FabricForm From(Fabric fabric, ClassHabits habits) => new()
    {
        Name = fabric.Name,
        Colour = fabric.Colour,
        UsableWidth = habits.InField(fabric.UsableWidth),
        Price = MoneyText.InField(fabric.Price),
        PricePer = fabric.PricePer,
        Increment = habits.YardageInField(fabric.Increment),
        Minimum = habits.YardageInField(fabric.Minimum),
        Directional = fabric.Directional,
        ShrinkageAlong = MoneyText.PercentInField(fabric.ShrinkageAlong),
        ShrinkageAcross = MoneyText.PercentInField(fabric.ShrinkageAcross),
        SupplierNote = fabric.SupplierNote,
        Version = fabric.Version,
    };

    public Fabric Read(FormReader reader)
    {
        var colour = (Colour ?? "").Trim().ToLowerInvariant();
        if (!ColourPattern().IsMatch(colour))
        {
            reader.Wrong(nameof(Colour), $"The colour is “{Colour}”: choose one, or type it as # and six digits, such as #7a8fb0.");
        }

        return new Fabric
        {
            Name = reader.Needed(nameof(Name), Name, "The fabric’s name", 80),
            Colour = colour,
            UsableWidth = reader.Size(nameof(UsableWidth), UsableWidth, "The usable width", reader.Limit(1, 2), reader.Limit(120, 300)),
            Price = reader.Money(nameof(Price), Price, "The price"),
            PricePer = reader.Choice(nameof(PricePer), PricePer, "The price’s unit", "yard", "metre"),
            Increment = reader.Yardage(nameof(Increment), Increment, "The shop’s step"),
            Minimum = reader.Yardage(nameof(Minimum), Minimum, "The least cut", mayBeZero: true),
            Directional = Directional,
            ShrinkageAlong = reader.Percent(nameof(ShrinkageAlong), ShrinkageAlong, "Shrinkage along the bolt", 50m),
            ShrinkageAcross = reader.Percent(nameof(ShrinkageAcross), ShrinkageAcross, "Shrinkage across the bolt", 50m),
            SupplierNote = reader.Optional(nameof(SupplierNote), SupplierNote, "The supplier note", 400),
            Version = Version,
        };
    }

    [GeneratedRegex("^#[0-9a-f]{6}$")]
    private static partial Regex ColourPattern();
}
