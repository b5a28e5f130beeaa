using System.Globalization;
using KittingBee.Web.Running;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Sharing;

/// <summary>Begins and ends the sharing of the guild.</summary>
public sealed class SharingDesk(
    SharingState state, ShareStore store, TeacherPassword password, Throttle throttle, Devices devices, NetworkDoor door, ShareAddress printed, SecurityLog log)
{
    /// <summary>Bytes of a form that strangers may send: a code, a name or a password, and the form's own token.</summary>
    public const int LargestForm = 20_000;

    /// <summary>What was chosen last time.</summary>
    public bool HttpsChosen => store.Setting().Https;

    /// <summary>Lets others in; the password must be set. Everybody signs in from now on.</summary>
    public async Task Start(bool https, HttpContext? context = null)
    {
        await store.KeepHttpsChoice(https);
        state.IsShared = true;
        state.WaitsForPassword = false;
        printed.Shared = door.Open(https);
        await log.Note(https ? Say("Sharing began, with HTTPS") : Say("Sharing began"), context);
    }

    /// <summary>Shuts everybody out; join codes are void and devices signed out.</summary>
    public async Task Stop(HttpContext context)
    {
        DeviceSignIn.LetFinish(context);
        DeviceSignIn.Forget(context);
        door.Close();
        printed.Shared = null;
        await store.DropJoinCodes();
        await devices.Cut(_ => true);
        state.IsShared = false;
        await log.Note(Say("Sharing ended"), context);
    }

    /// <summary>What the command line asked for, once the program listens.</summary>
    public async Task StartAsAsked(StartOptions options)
    {
        if (!options.Share)
        {
            return;
        }

        if (password.IsSet)
        {
            await Start(options.Https);
        }
        else
        {
            state.WaitsForPassword = true;
            await store.KeepHttpsChoice(options.Https);
        }
    }

    /// <summary>Counts a try at the password or a code. Where it comes too early, the answer becomes a 429, and what to say is given; null for one that may be looked at.</summary>
    public async Task<string?> TooEarly(HttpContext context)
    {
        if (throttle.Begin(context.Connection.RemoteIpAddress) is not { } wait)
        {
            return null;
        }

        context.Response.StatusCode = StatusCodes.Status429TooManyRequests;
        var seconds = (int)Math.Ceiling(wait.TotalSeconds);
        context.Response.Headers.RetryAfter = FormattableString.Invariant($"{seconds}");
        await log.Note(Say("Too many wrong tries: made to wait"), context);
        return seconds < 90
            ? Say($"Too many tries went wrong. Wait {seconds} seconds, then try again.")
            : Say($"Too many tries went wrong. Wait {(seconds + 59) / 60} minutes, then try again.");
    }

    /// <summary>The try was right: it does not count.</summary>
    public void Passed(HttpContext context) => throttle.Passed(context.Connection.RemoteIpAddress);

    /// <summary>Signs this device in as the teacher, whose password it brought.</summary>
    public async Task SignInTeacher(HttpContext context)
    {
        await CutOwn(context);
        DeviceSignIn.Keep(context, await devices.SignIn(Role.Teacher, null, ""));
        await log.Note(Say("The teacher signed in"), context);
    }

    /// <summary>Makes a new join code for a class, in place of its old one.</summary>
    public async Task<bool> MakeJoinCode(long classId, TimeSpan lives, DateTimeOffset now, HttpContext context)
    {
        var join = new JoinCode { ClassId = classId, Code = Secrets.Code(), Link = Secrets.Link(), ExpiresAt = Database.Stamp(now + lives) };
        if (!await store.KeepJoinCode(join))
        {
            return false;
        }

        await log.Note(Say($"A join code for class {classId} was made"), context);
        return true;
    }

    /// <summary>How many devices may help with one class: far more than fit into a room, and no more than the list of them can hold.</summary>
    public const int MostHelpers = 200;

    /// <summary>What is said to a helper without a name.</summary>
    public static string NoName => Say("Say who you are, so that the others see who ticked what.");

    /// <summary>What is said to the next one.</summary>
    public static string IsFull => Say("So many devices have joined this class that no more are let in. Ask the teacher to cut off those that are not needed.");

    /// <summary>Signs a helper in for the class of a code; false where so many have joined that none is let in any more.</summary>
    public async Task<bool> SignInHelper(JoinCode join, string name, HttpContext context)
    {
        await CutOwn(context);
        if (devices.All.Count(device => device.ClassId == join.ClassId) >= MostHelpers)
        {
            await log.Note(Say($"Too many devices wanted to join class {join.ClassId}"), context);
            return false;
        }

        DeviceSignIn.Keep(context, await devices.SignIn(Role.Helper, join.ClassId, name));
        await log.Note(Say($"A helper joined class {join.ClassId} by its code"), context);
        return true;
    }

    /// <summary>Signs this device out.</summary>
    public async Task SignOut(HttpContext context)
    {
        await CutOwn(context);
        DeviceSignIn.Forget(context);
        await log.Note(Say("A device signed out"), context);
    }

    private async Task CutOwn(HttpContext context)
    {
        if (context.User.DeviceId() is { } id)
        {
            DeviceSignIn.LetFinish(context);
            await devices.Cut(device => device.Id == id);
        }
    }
}
