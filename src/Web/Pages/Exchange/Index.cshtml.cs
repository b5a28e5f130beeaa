using KittingBee.Web.Exchange;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Exchange;

/// <summary>The guild or one class as a file, and the way in for one.</summary>
[RequestSizeLimit(FileFormat.LargestFile + 1_000_000)]
[RequestFormLimits(MultipartBodyLengthLimit = FileFormat.LargestFile + 1_000_000)]
public sealed class IndexModel(FileWriter writer, Incoming incoming, GuildStore guild, ClassStore classes) : PageModel
{
    private const string MediaType = "application/json";

    public IReadOnlyList<ClassRecord> Classes { get; private set; } = [];

    public long Chosen { get; private set; }

    public void OnGet(long @class)
    {
        Chosen = @class;
        Classes = classes.All();
    }

    public IActionResult OnGetGuild(bool people) => Saved(writer.Guild(people), guild.Read().Name is { Length: > 0 } name ? name : Say("guild"));

    public IActionResult OnGetClass(long id, bool people) => writer.Class(id, people) is { } file ? Saved(file, classes.Find(id)!.Title) : NotFound();

    public async Task<IActionResult> OnPost(IFormFile? file)
    {
        if (file is null || file.Length == 0)
        {
            return Refuse(Say("Choose the file first: one that was saved on this page, here or elsewhere."));
        }

        if (file.Length > FileFormat.LargestFile)
        {
            return Refuse(Say($"The file has {BackupText.Size(file.Length)}, and {BackupText.Size(FileFormat.LargestFile)} is the most."));
        }

        var bytes = new byte[file.Length];
        await using var stream = file.OpenReadStream();
        await stream.ReadExactlyAsync(bytes);
        try
        {
            return Redirect($"/settings/files/{await incoming.Read(bytes)}");
        }
        catch (FileRefusedException e)
        {
            return Refuse(e.Message);
        }
    }

    private IActionResult Saved(byte[] file, string title) => file.Length <= FileFormat.LargestFile
        ? File(file, MediaType, FileNames.For(title, "json"))
        : Refuse(Say($"With its photographs the file would have {BackupText.Size(file.Length)}, more than can be brought in again. Save it without people and photographs, or download a copy on the Copies page."));

    private PageResult Refuse(string message)
    {
        ModelState.AddModelError("file", message);
        Response.StatusCode = StatusCodes.Status400BadRequest;
        Classes = classes.All();
        return Page();
    }
}
