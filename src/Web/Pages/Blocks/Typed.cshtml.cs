using KittingBee.Planning.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Blocks;

/// <summary>A cut list typed from a printed pattern: what each line was understood as, and the error at the line that was not.</summary>
public sealed class TypedModel(BlockStore blocks, GuildStore guild) : BlockPage(blocks, guild)
{
    private const int LongestText = 100_000;

    [BindProperty]
    public TypedForm Form { get; set; } = new();

    public TypedCutListReading Reading { get; private set; } = new([], null, []);

    public IActionResult OnGet(long? id)
    {
        if (!Find(id))
        {
            return NotFound();
        }

        Form = new() { Name = Stored.Name, Lines = Stored.TypedLines, Version = Stored.Version };
        Understand();
        return Page();
    }

    /// <summary>Shows how the lines are understood; stores nothing.</summary>
    public IActionResult OnPostCheck(long? id)
    {
        if (!Find(id))
        {
            return NotFound();
        }

        Understand();
        return Page();
    }

    public async Task<IActionResult> OnPostSave(long? id)
    {
        if (!Find(id))
        {
            return NotFound();
        }

        Understand();
        var reader = new FormReader(ModelState, nameof(Form), Habits.Metric);
        var name = reader.Needed(nameof(Form.Name), Form.Name, "The pattern’s name", BlockLimits.NameLength);
        foreach (var problem in Reading.Problems)
        {
            reader.WrongAsSaid(nameof(Form.Lines), Say(problem.Said));
        }

        if ((Form.Lines ?? "").Length > LongestText)
        {
            reader.Wrong(nameof(Form.Lines), $"The list is longer than {LongestText} characters. Type one pattern at a time.");
        }

        if (!reader.IsGood)
        {
            Response.StatusCode = StatusCodes.Status400BadRequest;
            return Page();
        }

        var block = Stored with { Id = id ?? 0, Name = name, TypedLines = Form.Lines!.ReplaceLineEndings("\n").Trim(), Version = Form.Version };
        if (id is null)
        {
            id = await Store.Add(block);
        }
        else if (await Store.Save(block) != Saved.Done)
        {
            this.SayStale(new Dictionary<string, string?> { ["name"] = Stored.Name, ["lines"] = Stored.TypedLines }, new Dictionary<string, string?> { ["name"] = Form.Name, ["lines"] = Form.Lines }, () => Form.Version = Stored.Version);
            return Page();
        }

        Notice.Say(TempData, $"{name} is saved.");
        return Redirect($"/blocks/{id}/typed");
    }

    private bool Find(long? id) => id is not { } number || (Open(number) && Stored.TypedLines is not null);

    private void Understand() => Reading = TypedCutList.Read(Form.Lines, UsualRules.For(Habits.Metric), Unit);

    /// <summary>The form as typed.</summary>
    public sealed class TypedForm
    {
        public string? Name { get; set; }

        public string? Lines { get; set; }

        public long Version { get; set; }
    }
}
