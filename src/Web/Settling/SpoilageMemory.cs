using KittingBee.Planning.Settling;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Settling;

/// <summary>What settled classes say about spoiled pieces, to be offered as the next class's miscut share.</summary>
public sealed class SpoilageMemory(ClassStore classes)
{
    /// <summary>All closed classes together: more pieces make a better estimate.</summary>
    public Spoilage OfClosedClasses() => Spoilage.Together(classes.All()
        .Where(record => record is { IsClosed: true, FrozenJson: not null })
        .Select(record => StoredJson.Read<ClassSettlement>(record.FrozenJson!).Spoilage));

    /// <summary>In words for the class form; null before any class is settled.</summary>
    public string? Offer() => OfClosedClasses() is { ForNextClass: { } share } spoilage
        ? Say($"In the classes settled so far {spoilage.Spoiled} of {spoilage.Cut} pieces were spoiled: {share * 100m:0.##} %.")
        : null;
}
