using KittingBee.Web.Settling;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Classes;

/// <summary>The photographed note of one leftover: shown, put there, removed. It is a page of the class, for those who may see the class.</summary>
[RequestSizeLimit((PhotoFile.LargestMegabytes + 1) * 1_000_000)]
public sealed class LeftoverPhotoModel(PhotoStore photos) : PageModel
{
    public IActionResult OnGet(long classId, long id)
    {
        if (photos.Find(classId, id) is not { } photo)
        {
            return NotFound();
        }

        // Somebody's own file: it is taken for the picture that its first bytes say, whatever else is in it, and no cache keeps it.
        Response.Headers.ContentDisposition = FormattableString.Invariant($"inline; filename=\"note-{id}.{photo.MediaType[(photo.MediaType.IndexOf('/', StringComparison.Ordinal) + 1)..]}\"");
        Response.Headers.CacheControl = "private, no-store";
        return File(photo.Picture, photo.MediaType);
    }

    public async Task<IActionResult> OnPost(long classId, long id, IFormFile? photo)
    {
        if (photo is null || photo.Length == 0)
        {
            return Back(classId, Say("No photo was chosen: choose a file first."));
        }

        var (read, fault) = await PhotoFile.Read(photo);
        return Back(classId, read is null ? fault : await photos.Put(classId, id, read) ? Say("The photo is with its leftover.") : Say("The photo is not stored: the leftover is not there any more, or the class is closed."));
    }

    public async Task<IActionResult> OnPostRemove(long classId, long id) =>
        Back(classId, await photos.Remove(classId, id) ? Say("The photo is removed for good.") : Say("The photo is not removed: it is not there any more, or the class is closed."));

    private RedirectResult Back(long classId, string text)
    {
        Notice.Show(TempData, text);
        return Redirect(PageAddresses.Class(classId, "settle") + "#recorded");
    }
}
