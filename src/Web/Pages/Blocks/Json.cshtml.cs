using KittingBee.Planning.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Blocks;

/// <summary>Takes a block as JSON, new or in place of one that is there.</summary>
[RequestSizeLimit(1_000_000)]
public sealed class JsonModel(GuildStore guild, BlockStore blocks) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public long? Id { get; set; }

    [BindProperty]
    public string? Text { get; set; }

    [BindProperty]
    public long Version { get; set; }

    [BindProperty]
    public IFormFile? Upload { get; set; }

    public IActionResult OnGet()
    {
        if (Id is { } id)
        {
            if (blocks.Find(id) is not { Json: { } json } stored)
            {
                return NotFound();
            }

            (Text, Version) = (json, stored.Version);
        }

        return Page();
    }

    public async Task<IActionResult> OnPost()
    {
        if (Upload is { Length: > 0 } file)
        {
            using var reader = new StreamReader(file.OpenReadStream());
            Text = await reader.ReadToEndAsync();
            ModelState.Remove(nameof(Text));
        }

        if (Read() is not { } block)
        {
            return Page();
        }

        var stored = new StoredBlock { Id = Id ?? 0, Name = block.Name, Json = BlockJson.Write(block), Version = Version };
        var address = Id ?? 0;
        if (Id is null)
        {
            address = await blocks.Add(stored);
        }
        else if (await blocks.Save(stored) != Saved.Done)
        {
            if (blocks.Find(stored.Id) is not { } now)
            {
                return NotFound();
            }

            this.SayStale($"{now.Name}, saved {now.UpdatedAt}", () => Version = now.Version, nameof(Version));
            return Page();
        }

        Notice.Say(TempData, $"{block.Name} is saved.");
        return Redirect(PageAddresses.Block(address));
    }

    private Block? Read()
    {
        var reading = BlockJson.Read(Text ?? "");
        var problems = reading.Block is { } block
            ? CutLists.For(block, UsualRules.For(guild.Read().Metric)).Problems
            : reading.Problems;
        foreach (var problem in problems)
        {
            ModelState.AddModelError(nameof(Text), problem.Field.Length == 0 ? problem.Message : $"{problem.Field}: {problem.Message}");
        }

        return problems.Count == 0 ? reading.Block : null;
    }
}
