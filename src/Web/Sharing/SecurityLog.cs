using System.Net;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Sharing;

/// <summary>Something that happened at the door.</summary>
public sealed record SecurityEvent
{
    /// <summary>In UTC.</summary>
    public string HappenedAt { get; init; } = "";

    /// <summary>A sentence of the program's own: it holds no name, password or code.</summary>
    public string What { get; init; } = "";

    /// <summary>From which address.</summary>
    public string Address { get; init; } = "";

    /// <summary>How often within ten minutes; a flood fills one line, not the book.</summary>
    public long Times { get; init; }
}

/// <summary>
/// Keeps what happens at the door for the teacher to see: when, what, from where. Sentences are the program's own and numbers
/// stand for devices and classes, so nothing that somebody typed gets in.
/// </summary>
public sealed class SecurityLog(Database database)
{
    /// <summary>Stands for the address of this machine itself.</summary>
    public const string ThisMachine = "this machine";

    private const int Kept = 1000;

    private const string Insert = "INSERT INTO share_event (happened_at, what, address) VALUES (@Now, @what, @address)";

    private const string Again = """
        UPDATE share_event SET times = times + 1
        WHERE id = (SELECT max(id) FROM share_event WHERE what = @what AND address = @address AND unixepoch(happened_at) > unixepoch(@Now) - 600)
        """;

    private const string Prune = "DELETE FROM share_event WHERE id <= (SELECT max(id) - @Kept FROM share_event)";

    private const string Select = "SELECT happened_at AS HappenedAt, what, address, times FROM share_event ORDER BY id DESC LIMIT @most";

    /// <summary>Notes an event; what is an own sentence, never something typed.</summary>
    public Task Note(string what, HttpContext? context = null) => database.Write(session =>
    {
        var happened = new { session.Now, what, address = AddressOf(context) };
        if (session.Run(Again, happened) == 0)
        {
            session.Run(Insert, happened);
            session.Run(Prune, new { Kept });
        }

        return true;
    });

    /// <summary>The latest first.</summary>
    public IReadOnlyList<SecurityEvent> Latest(int most = 50) => database.Read(session => session.List<SecurityEvent>(Select, new { most }));

    private static string AddressOf(HttpContext? context) => context?.Connection.RemoteIpAddress switch
    {
        null => ThisMachine,
        var address when IPAddress.IsLoopback(address) => ThisMachine,
        var address => address.ToString(),
    };
}
