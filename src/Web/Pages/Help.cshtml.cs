using KittingBee.Web.Classes;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages;

/// <summary>The guide: the whole job on two printed pages, its pictures drawn by the program as it is.</summary>
public sealed class HelpModel(GuildStore guild) : PageModel
{
    public ClassHabits Habits => Showing.Habits.Of(guild.Read());
}
