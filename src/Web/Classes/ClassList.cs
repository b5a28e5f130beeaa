using KittingBee.Planning.Blocks;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>A class on a list: its block or project in its first colourway's colours, and what is next.</summary>
public sealed record ListedClass(ClassRecord Record, Block? Block, Project? Project, IReadOnlyDictionary<string, string> Colours, string? Next);

/// <summary>Lists the guild's classes.</summary>
public sealed class ClassList(ClassStore classes, ClassPlanning planning, PackingStore packing, SettlingStore settling)
{
    // What is next takes the whole plan; beyond this many a list says only which classes there are.
    private const int MostWithNext = 12;

    public async Task<IReadOnlyList<ListedClass>> All()
    {
        var listed = new List<ListedClass>();
        foreach (var record in classes.All())
        {
            var materials = planning.Materials(record.Id);
            var colours = materials?.Colourways is [var first, ..]
                ? first.FabricOfLetter.ToDictionary(pair => pair.Key, pair => materials.Fabrics[pair.Value].Colour)
                : [];
            var block = record.BlockJson is { } json ? BlockJson.Read(json).Block : null;
            var project = record.ProjectJson is { } whole ? ProjectJson.Read(whole).Project : null;
            var next = materials is null || record.IsClosed || listed.Count >= MostWithNext ? null : await Next(materials);
            listed.Add(new ListedClass(record, block, project, colours, next));
        }

        return listed;
    }

    private async Task<string?> Next(ClassMaterials materials)
    {
        var id = materials.Record.Id;
        var stages = JobLine.Of(materials, await planning.Plan(materials), packing.WholeKitMarks(id), settling.Purchases(id), settling.Leftovers(id));
        return stages.FirstOrDefault(stage => stage.Wrong) is { } wrong
            ? $"{StageText.Title(wrong.Name)}, {wrong.Says}."
            : stages.FirstOrDefault(stage => stage.Next is not null)?.Next;
    }
}
