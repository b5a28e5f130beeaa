using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Web.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Pages;
using KittingBee.Web.Pages.Shelf;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc.ModelBinding;

namespace KittingBee.Web.Demonstration;

/// <summary>Fills an empty guild with the invented one, through the same forms, checks and stores as a person's input.</summary>
public sealed class DemonstrationGuild(GuildStore guild, BlockStore blocks, FabricStore fabrics, ShelfStore shelf, DemonstrationClasses classes)
{
    private static readonly ClassHabits Habits = new(Metric: false, PaperA4: false, "USD");

    public async Task Load()
    {
        var seed = DemonstrationData.Guild();
        var form = new GuildForm { Name = seed.Name, Units = seed.Units, Paper = seed.Paper, Currency = seed.Currency };
        await guild.Save(Take("guild", form.Read) with { Demonstration = true });
        var blockOf = await LoadBlocks(seed);
        var fabricOf = await LoadShelf();
        foreach (var item in DemonstrationData.Classes())
        {
            await classes.Load(item, blockOf[item.Block], fabricOf);
        }
    }

    /// <summary>Reads with the forms' own reader, and stops on anything that a person would be told about.</summary>
    internal static T Take<T>(string what, Func<FormReader, T> read)
    {
        var state = new ModelStateDictionary();
        var value = read(new FormReader(state, what, Habits.Metric));
        var wrong = state.SelectMany(entry => entry.Value!.Errors.Select(error => new Problem(entry.Key, KittingBee.Planning.Sentence.FromString(error.ErrorMessage)))).ToList();
        Expect(what, wrong);
        return value;
    }

    internal static void Expect(string what, IReadOnlyList<Problem> problems)
    {
        if (problems is [var problem, ..])
        {
            throw new InvalidDataException($"The demonstration’s {what} cannot be taken: {problem.Field}: {problem.Message}");
        }
    }

    private async Task<Dictionary<string, StoredBlock>> LoadBlocks(GuildSeed seed)
    {
        var byName = new Dictionary<string, StoredBlock>(StringComparer.Ordinal);
        foreach (var key in seed.Blocks)
        {
            var block = Starters.Find(key)?.Block ?? throw new InvalidDataException($"There is no starting block {key}.");
            Expect(block.Name, CutLists.For(block, UsualRules.For(metric: false)).Problems);
            var stored = new StoredBlock { Name = block.Name, Json = BlockJson.Write(block) };
            byName[block.Name] = stored with { Id = await blocks.Add(stored) };
        }

        foreach (var typed in seed.TypedBlocks)
        {
            var stored = new StoredBlock { Name = typed.Name, TypedLines = string.Join('\n', typed.Lines) };
            Expect(typed.Name, ClassCutList.Of(stored.Json, stored.TypedLines, null, UsualRules.For(metric: false)).Problems);
            byName[typed.Name] = stored with { Id = await blocks.Add(stored) };
        }

        return byName;
    }

    private async Task<Dictionary<string, Fabric>> LoadShelf()
    {
        var seed = DemonstrationData.Shelf();
        var byName = new Dictionary<string, Fabric>(StringComparer.Ordinal);
        foreach (var form in seed.Fabrics)
        {
            var fabric = Take($"fabric {form.Name}", form.Read);
            byName[fabric.Name] = fabric with { Id = await fabrics.Add(fabric) };
        }

        foreach (var piece in seed.Pieces)
        {
            var form = new PieceForm { Kind = piece.Kind, Width = piece.Width, Length = piece.Length, Count = piece.Count, Note = piece.Note };
            await shelf.Add(Take($"piece of {piece.Fabric}", reader => form.Read(reader, byName[piece.Fabric], Habits)));
        }

        return byName;
    }
}
