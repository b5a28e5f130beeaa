using System.Diagnostics;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages;

/// <summary>What went wrong in words, with a reference to the log and nothing internal.</summary>
[IgnoreAntiforgeryToken]
[ResponseCache(NoStore = true, Location = ResponseCacheLocation.None)]
public sealed class ErrorModel(ILogger<ErrorModel> log) : PageModel
{
    private static (string, string) TooLarge => (Say("That is too large"), Say("Nothing of it was stored. Go back, and send less at a time, or a smaller file."));

    public string Heading { get; private set; } = Say("Something went wrong");

    public string Advice { get; private set; } = Say("Nothing was lost: what was saved before is saved. Go back, and try once more.");

    public string? Reference { get; private set; }

    public void OnGet(int? status) => Explain(status);

    public void OnPost(int? status) => Explain(status);

    /// <summary>Without this, a refused OPTIONS request would look like one that went well.</summary>
    public void OnOptions(int? status) => Explain(status);

    private void Explain(int? status)
    {
        if (HttpContext.Features.Get<IExceptionHandlerFeature>() is { } thrown)
        {
            if (thrown.Error is BadHttpRequestException { StatusCode: StatusCodes.Status413PayloadTooLarge })
            {
                (Heading, Advice) = TooLarge;
                Response.StatusCode = StatusCodes.Status413PayloadTooLarge;
                return;
            }

            if (StorageFaults.Explain(thrown.Error) is { } fault)
            {
                (Heading, Advice) = (Say("It was not stored"), fault);
                Response.StatusCode = StorageFaults.StatusOf(thrown.Error);
            }

            Reference = (Activity.Current?.TraceId.ToString() ?? HttpContext.TraceIdentifier)[..8];
            log.LogError(thrown.Error, "Reference {Reference}", Reference);
            return;
        }

        (Heading, Advice) = status switch
        {
            404 => (Say("There is no such page"), Say("It may have been removed, or the address is not quite right.")),
            400 => (Say("That form could not be taken"), Say("It may have been open for a long time. Go back, load the page again, and send it once more.")),
            413 => (Say("That is too large"), Say("Send a smaller file.")),
            403 => (Say("That is not yours to open"), Say("A helper packs one class, and a page from elsewhere changes nothing here. Ask the teacher if you need more.")),
            401 => (Say("Sign in first"), Say("This device is signed out. Go to the first page to come in again.")),
            429 => (Say("A little slower, please"), Say("This device asked for more than its share. Wait a few seconds, then load the page again.")),
            _ => (Heading, Advice),
        };
    }
}
