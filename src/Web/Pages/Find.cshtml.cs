using KittingBee.Planning.Blocks;
using KittingBee.Web.Finding;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages;

/// <summary>Searches classes, blocks, fabrics and people; without words, the latest of each.</summary>
public sealed class FindModel(FindStore store, GuildStore guild) : PageModel
{
    /// <summary>More of a kind than these are counted, not listed.</summary>
    public const int Most = 20;

    private const int LongestSearch = 100;

    private const int MostLately = 5;

    [BindProperty(SupportsGet = true, Name = "q")]
    public string? Typed { get; set; }

    public bool Asked => Typed is not null;

    public Findable Found { get; private set; } = new([], [], [], []);

    /// <summary>Whether bare numbers of a typed cut list are centimetres.</summary>
    public bool Metric { get; private set; }

    public int Shown => Asked ? Most : MostLately;

    public int Count => Found.Classes.Count + Found.Blocks.Count + Found.Fabrics.Count + Found.People.Count;

    public void OnGet()
    {
        Typed = Typed?.Trim() is { Length: > 0 } typed ? typed[..Math.Min(typed.Length, LongestSearch)] : null;
        Metric = guild.Read().Metric;
        var all = store.All();

        // Without a question, people are nobody's business.
        Found = Typed is null ? all with { People = [] } : Finder.Find(all, Typed);
    }

    public static Block? Drawn(FindableBlock block) => block.Json is { } json ? BlockJson.Read(json).Block : null;
}
