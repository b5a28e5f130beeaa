using KittingBee.Web.Demonstration;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages;

/// <summary>The first page: what the program does for a new guild, the classes for one that has some.</summary>
public sealed class IndexModel(GuildStore guild, ClassStore classes, BlockStore blocks, DemonstrationGuild demonstration) : PageModel
{
    public Guild Guild { get; private set; } = new();

    public GuildForm Form { get; private set; } = new();

    public IReadOnlyList<ClassRecord> Classes { get; private set; } = [];

    public bool HasBlocks { get; private set; }

    public void OnGet()
    {
        Guild = guild.Read();
        Form = GuildForm.From(Guild);
        Classes = classes.All();
        HasBlocks = blocks.All().Count > 0;
    }

    public async Task<IActionResult> OnPostDemonstration()
    {
        if (!guild.Read().IsAnswered)
        {
            await demonstration.Load();
        }

        return RedirectToPage();
    }
}
