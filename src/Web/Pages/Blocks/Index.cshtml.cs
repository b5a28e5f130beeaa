using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Blocks;

/// <summary>The guild's blocks.</summary>
public sealed class IndexModel(GuildStore guild, BlockStore blocks) : PageModel
{
    public IReadOnlyList<(StoredBlock Stored, Block? Block)> Blocks { get; private set; } = [];

    public void OnGet() => Blocks = [.. blocks.All().Select(stored => (stored, stored.Json is { } json ? BlockJson.Read(json).Block : null))];

    public async Task<IActionResult> OnPostPutBack(long id)
    {
        if (!await blocks.PutBack(id))
        {
            return NotFound();
        }

        Notice.Say(TempData, "The block is back.");
        return RedirectToPage();
    }

    /// <summary>Finished size and number of fabrics.</summary>
    public string Size(Block block)
    {
        var habits = Habits.Of(guild.Read());
        return $"{habits.Show(Sum(block.Columns))} × {habits.Show(Sum(block.Rows))} finished, {block.Fabrics.Count} fabrics";
    }

    private static Length Sum(IReadOnlyList<Length> sizes) => sizes.Aggregate(Length.Zero, (sum, size) => sum + size);
}
