using KittingBee.Web.Classes;
using KittingBee.Web.Demonstration;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages;

/// <summary>The first page: what the program does for a new guild, the classes for one that has some.</summary>
public sealed class IndexModel(GuildStore guild, ClassList list, BlockStore blocks, DemonstrationGuild demonstration) : PageModel
{
    public Guild Guild { get; private set; } = new();

    public GuildForm Form { get; private set; } = new();

    public IReadOnlyList<ListedClass> Classes { get; private set; } = [];

    public bool HasBlocks { get; private set; }

    public async Task OnGet()
    {
        Guild = guild.Read();
        Form = GuildForm.From(Guild.IsAnswered ? Guild : Guild with { Language = Showing.Language.Current.Tag });
        Classes = await list.All();
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
