using System.Text.Json;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Settling;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Exchange;

/// <summary>
/// Reads a database that came from elsewhere with the program's own eyes, so that no page stumbles over it later: the database checks
/// types, limits and references, this checks what stands inside texts.
/// </summary>
public static class ContentCheck
{
    /// <exception cref="FileRefusedException">Something in it cannot be read.</exception>
    public static void Check(Database database, string kind)
    {
        var classes = Try(Say("the classes"), () => database.Read(session => session.List<ClassRecord>(ClassStore.SelectEvery)));
        if (kind == FileFormat.Class && classes.Count != 1)
        {
            throw new FileRefusedException(Say($"A class’s file holds one class, and this one holds {classes.Count}. Nothing was taken in."));
        }

        Try(Say("the guild’s settings"), () => new GuildStore(database).Read());
        Try(Say("the fabrics"), () => new FabricStore(database).All());
        Try(Say("the shelf"), () => new ShelfStore(database).All());
        foreach (var block in Try(Say("the blocks"), () => new BlockStore(database).All()))
        {
            Cut(Say($"the block {block.Name}"), block.Json, block.TypedLines, new CuttingRules());
        }

        foreach (var record in classes)
        {
            var place = Say($"the class {record.Title}");
            var methods = Try(place, () => StoredJson.Read<Methods>(record.MethodsJson));
            Cut(place, record.BlockJson, record.TypedLines, new CuttingRules { SeamAllowance = record.SeamAllowance, CuttingStep = record.CuttingStep, Metric = record.Metric, Methods = methods, BlocksPerKit = record.BlocksPerKit });
            Try(place, () => record.FrozenJson is null ? null : StoredJson.Read<ClassSettlement>(record.FrozenJson));
            Try(Say($"{place}, its roster"), () => new RosterStore(database).ForClass(record.Id));
            Try(Say($"{place}, its colourways"), () => new ColourwayStore(database).ForClass(record.Id));
            Try(Say($"{place}, its kits"), () => new KitStore(database).ForClass(record.Id));
            Try(Say($"{place}, its marks"), () => new PackingStore(database).MarksAfter(record.Id, 0));
            Try(Say($"{place}, its shortages"), () => new ShortageStore(database).ForClass(record.Id));
            var settling = new SettlingStore(database);
            Try(Say($"{place}, its accounts"), () => (settling.Purchases(record.Id), settling.Given(record.Id), settling.Leftovers(record.Id)));
            foreach (var plan in Try(Say($"{place}, its plans"), () => new PlanStore(database).ForClass(record.Id)).Values)
            {
                Try(Say($"{place}, its plans"), () => (StoredJson.Read<CuttingRequest>(plan.RequestJson).Stock ?? throw new JsonException("A plan has no cloth."), StoredJson.Read<IReadOnlyList<long>>(plan.ShelfPieceIds)));
            }
        }
    }

    // A block that has problems of its own may be kept; one that is no block may not.
    private static void Cut(string place, string? json, string? typedLines, CuttingRules rules)
    {
        if (json is not null && BlockJson.Read(json) is { Block: null, Problems: [var problem, ..] })
        {
            throw new FileRefusedException(Say($"In {place} the block cannot be read: {problem.Field} {problem.Message} Nothing was taken in."));
        }

        if (typedLines is not null)
        {
            Try(place, () => TypedCutList.Read(typedLines, rules, rules.Metric ? LengthUnit.Centimetre : LengthUnit.Inch));
        }
    }

    private static T Try<T>(string place, Func<T> read)
    {
        try
        {
            return read();
        }
#pragma warning disable CA1031 // Whatever a made-up text makes a reader throw, the file is refused and nothing happened.
        catch (Exception e) when (e is not FileRefusedException)
#pragma warning restore CA1031
        {
            throw new FileRefusedException(Say($"In {place} something cannot be read: {(e.InnerException ?? e).Message} Nothing was taken in."), e);
        }
    }
}
