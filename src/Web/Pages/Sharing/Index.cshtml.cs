using KittingBee.Web.Documents.Labels;
using KittingBee.Web.Sharing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Sharing;

/// <summary>Lets helpers in: the password, the address, tonight's join code, and the devices that came.</summary>
public sealed class IndexModel(
    SharingState state, SharingDesk desk, ShareStore store, TeacherPassword password, NetworkDoor door, OwnCertificate certificate, Devices devices, ClassStore classes, SecurityLog log, TimeProvider clock) : PageModel
{
    // Room for a QR code on the page, in its own drawing's millimetres.
    private const decimal CodeRoom = 60m;

    private static readonly int[] Hours = [3, 6, 12];

    public static IReadOnlyList<int> HoursToChoose => Hours;

    /// <summary>The class that the page was opened from; its code stands first.</summary>
    [BindProperty(SupportsGet = true)]
    public long? Class { get; set; }

    [BindProperty]
    public string? Password { get; set; }

    [BindProperty]
    public string? OldPassword { get; set; }

    [BindProperty]
    public bool Https { get; set; }

    public bool IsShared => state.IsShared;

    public bool WaitsForPassword => state.WaitsForPassword;

    public bool HasPassword { get; private set; }

    public IReadOnlyList<Uri> Addresses => door.Addresses;

    public IReadOnlyList<Uri> Taken => door.Taken;

    public string Fingerprint => Addresses.Any(address => address.Scheme == Uri.UriSchemeHttps) ? certificate.Fingerprint : "";

    public IReadOnlyList<ClassRecord> Classes { get; private set; } = [];

    public IReadOnlyDictionary<long, JoinCode> Joins { get; private set; } = new Dictionary<long, JoinCode>();

    public IReadOnlyList<OpenDevice> Devices => devices.All;

    public IReadOnlyList<SecurityEvent> Events { get; private set; } = [];

    public long? OwnDevice => User.DeviceId();

    public static QrSquare? Qr(string text) => QrSquare.Of(text, CodeRoom);

    /// <summary>The whole address of a join link; null while there is no address to reach.</summary>
    public string? JoinAddress(JoinCode join) => Addresses.Count == 0 ? null : $"{Addresses[0].GetLeftPart(UriPartial.Authority)}/join/{join.Link}";

    public string TitleOf(OpenDevice device) => Classes.FirstOrDefault(record => record.Id == device.ClassId)?.Title ?? "";

    public void OnGet()
    {
        Https = desk.HttpsChosen;
        Load();
    }

    public async Task<IActionResult> OnPostStart()
    {
        if (!state.IsShared)
        {
            if (!password.IsSet && await KeepPassword() is { } refused)
            {
                return refused;
            }

            await desk.Start(Https, HttpContext);
            await desk.SignInTeacher(HttpContext);
        }

        return Back();
    }

    public async Task<IActionResult> OnPostStop()
    {
        if (state.IsShared)
        {
            await desk.Stop(HttpContext);
            Notice.Say(TempData, "Sharing is over: everybody is signed out, and only this machine reaches the guild.");
        }

        return Back();
    }

    /// <summary>The start asked to share, and somebody at the machine decides otherwise.</summary>
    public IActionResult OnPostAlone()
    {
        state.WaitsForPassword = false;
        return Redirect("/");
    }

    /// <summary>A new password. While the guild is not shared, sitting at the machine is enough; afterwards the old one is asked for.</summary>
    public async Task<IActionResult> OnPostPassword()
    {
        if (state.IsShared)
        {
            if (await desk.TooEarly(HttpContext) is { } wait)
            {
                return Refuse(nameof(OldPassword), wait);
            }

            if (!await password.IsRight(OldPassword))
            {
                await log.Note(Say("The password was to be changed, but the old one was wrong"), HttpContext);
                return Refuse(nameof(OldPassword), Say("That is not the present password."));
            }

            desk.Passed(HttpContext);
        }

        if (await KeepPassword() is { } refused)
        {
            return refused;
        }

        var own = OwnDevice;
        await devices.Cut(device => device.Role == Role.Teacher && device.Id != own);
        Notice.Say(TempData, "The password is changed; other devices that were signed in as the teacher are signed out.");
        return Back();
    }

    public async Task<IActionResult> OnPostCode(long id, int hours)
    {
        if (!state.IsShared || !Hours.Contains(hours) || !await desk.MakeJoinCode(id, TimeSpan.FromHours(hours), clock.GetUtcNow(), HttpContext))
        {
            return NotFound();
        }

        return Back();
    }

    public async Task<IActionResult> OnPostWithdraw(long id)
    {
        await store.DropJoinCode(id);
        await log.Note(Say($"The join code of class {id} was withdrawn"), HttpContext);
        Notice.Say(TempData, "The code is withdrawn. Who has joined by it already goes on; cut devices off below.");
        return Back();
    }

    public async Task<IActionResult> OnPostCut(long id)
    {
        if (id == OwnDevice)
        {
            return Redirect("/sign-out");
        }

        if (await devices.Cut(device => device.Id == id) > 0)
        {
            await log.Note(Say($"Device {id} was cut off"), HttpContext);
        }

        Notice.Say(TempData, "The device is cut off.");
        return Back();
    }

    public async Task<IActionResult> OnPostCutHelpers()
    {
        var count = await devices.Cut(device => device.Role == Role.Helper);
        await store.DropJoinCodes();
        await log.Note(Say("All helpers were cut off"), HttpContext);
        Notice.Show(TempData, count == 1 ? Say("One device is cut off, and all join codes are withdrawn.") : Say($"{count} devices are cut off, and all join codes are withdrawn."));
        return Back();
    }

    private async Task<PageResult?> KeepPassword()
    {
        if (TeacherPassword.Problem(Password) is { } problem)
        {
            return Refuse(nameof(Password), problem);
        }

        await password.Set(Password!);
        await log.Note(Say("The teacher’s password was set"), HttpContext);
        return null;
    }

    private PageResult Refuse(string field, string why)
    {
        ModelState.AddModelError(field, why);
        if (Response.StatusCode == StatusCodes.Status200OK)
        {
            Response.StatusCode = StatusCodes.Status400BadRequest;
        }

        Load();
        return Page();
    }

    private void Load()
    {
        HasPassword = password.IsSet;
        Classes = [.. classes.All().Where(record => !record.IsClosed).OrderBy(record => record.Id != Class)];
        Joins = store.Joins().ToDictionary(join => join.ClassId);
        Events = log.Latest();
    }

    private RedirectResult Back() => Redirect("/settings/sharing" + (Class is { } id ? FormattableString.Invariant($"?class={id}") : ""));
}
