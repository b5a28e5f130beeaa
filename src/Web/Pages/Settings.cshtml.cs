using KittingBee.Web.Backups;
using KittingBee.Web.Forms;
using KittingBee.Web.Packing;
using KittingBee.Web.Running;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages;

/// <summary>The guild's name, measures, paper and currency.</summary>
public sealed class SettingsModel(GuildStore guild, DataFolder folder, BackupBook backups, MarkDesk marks, KittingBee.Web.Sharing.Devices devices) : PageModel
{
    [BindProperty]
    public GuildForm Form { get; set; } = new();

    public string Folder => folder.Path;

    public bool IsDemonstration => guild.Read().Demonstration;

    public void OnGet() => Form = GuildForm.From(guild.Read());

    public async Task<IActionResult> OnPostEmpty()
    {
        if (!IsDemonstration)
        {
            return NotFound();
        }

        var before = backups.Make(BackupReason.BeforeEmptying);
        if (!await guild.EmptyDemonstration())
        {
            return NotFound();
        }

        marks.ForgetAll();
        await devices.ReadAnew();
        Notice.Say(TempData, "The demonstration is gone, and this guild is empty.", PageAddresses.PutBack(before.Name));
        return Redirect("/");
    }

    public async Task<IActionResult> OnPost()
    {
        var reader = new FormReader(ModelState, nameof(Form), metric: false);
        var settings = Form.Read(reader) with { Demonstration = guild.Read().Demonstration };
        if (!reader.IsGood)
        {
            return Page();
        }

        if (await guild.Save(settings) != Saved.Done)
        {
            var now = guild.Read();
            this.SayStale(GuildForm.From(now), Form, () => Form.Version = now.Version);
            return Page();
        }

        Notice.Say(TempData, "The settings are saved.");
        return Redirect(settings.IsAnswered ? "/settings" : "/");
    }
}
