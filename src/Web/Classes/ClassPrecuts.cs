using KittingBee.Planning;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>How the fabrics of a class go into the bags, and the precuts that it counts on: the usual ones until it says otherwise.</summary>
/// <param name="Choices">By fabric; fabrics that are not in it are cut into pieces.</param>
/// <param name="Rows">Its precuts, in the order in which they are shown.</param>
/// <param name="Version">For changes.</param>
public sealed record ClassPrecuts(IReadOnlyDictionary<long, FormatChoice> Choices, IReadOnlyList<PrecutRow> Rows, long Version)
{
    /// <summary>Nothing chosen, the usual precuts.</summary>
    public static ClassPrecuts Usual { get; } = new(new Dictionary<long, FormatChoice>(), UsualRows, 0);

    private static PrecutRow[] UsualRows =>
    [
        .. PrecutSizes.Usual(Length.FromInches(40)).Select(precut => new PrecutRow
        {
            Format = precut.Format,
            Width = precut.Format == FormatCodes.Strips ? null : precut.Width,
            Length = precut.Length,
            PackSize = precut.PackSize,
        }),
    ];

    public static ClassPrecuts Of(ClassFormatRows stored) => new(
        stored.Choices.ToDictionary(choice => choice.FabricId),
        [.. UsualRows.Select(usual => stored.Precuts.FirstOrDefault(own => own.Format == usual.Format) ?? usual)],
        stored.Version);

    /// <summary>The choice for a fabric; cut pieces where nothing was chosen.</summary>
    public FormatChoice ChoiceOf(long fabricId) => Choices.GetValueOrDefault(fabricId) ?? new FormatChoice { FabricId = fabricId };

    /// <summary>The same with one more choice.</summary>
    public ClassPrecuts With(FormatChoice choice) =>
        this with { Choices = new Dictionary<long, FormatChoice>(Choices) { [choice.FabricId] = choice } };

    /// <summary>
    /// The precuts as they are bought, or as the teacher cuts them from cloth: straight, so that no edge is pinked, and no wider
    /// than the cloth.
    /// </summary>
    public IReadOnlyList<Precut> Precuts(Length usableWidth, bool bought, ClassHabits habits) =>
    [
        .. Rows.Select(row =>
        {
            var pinked = row.Format switch
            {
                _ when !bought => PinkedEdges.None,
                FormatCodes.Strips => PinkedEdges.LongEdges,
                FormatCodes.FiveInchSquares or FormatCodes.TenInchSquares => PinkedEdges.All,
                _ => PinkedEdges.None,
            };
            return new Precut(row.Format, NameOf(row, habits), row.Width ?? usableWidth, row.Length, row.PackSize, row.PackPrice, pinked, row.PinkedMargin);
        }),
    ];

    /// <summary>Several of a precut in words.</summary>
    public static Sentence NamesOf(PrecutRow row, ClassHabits habits) => row.Format switch
    {
        FormatCodes.FatQuarter => (Sentence)"fat quarters",
        FormatCodes.FatEighth => "fat eighths",
        FormatCodes.Strips => $"{habits.Show(row.Length)} strips",
        _ => row.Width == row.Length ? (Sentence)$"{habits.Show(row.Length)} squares" : $"{habits.Show(row.Width ?? row.Length)} × {habits.Show(row.Length)} pieces",
    };

    /// <summary>One of a precut in words, with its own size: "5″ square", "2½″ strip", "fat quarter".</summary>
    public static Sentence NameOf(PrecutRow row, ClassHabits habits) => row.Format switch
    {
        FormatCodes.FatQuarter => (Sentence)"fat quarter",
        FormatCodes.FatEighth => "fat eighth",
        FormatCodes.Strips => $"{habits.Show(row.Length)} strip",
        _ => row.Width == row.Length ? (Sentence)$"{habits.Show(row.Length)} square" : $"{habits.Show(row.Width ?? row.Length)} × {habits.Show(row.Length)} piece",
    };
}
