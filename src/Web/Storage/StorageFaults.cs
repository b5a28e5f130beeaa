using KittingBee.Web.Backups;
using Microsoft.Data.Sqlite;

namespace KittingBee.Web.Storage;

/// <summary>What a disk or a database that refuses says to people: what is the matter, what became of their input, and what to do.</summary>
public static class StorageFaults
{
    // Result codes of SQLite, https://www.sqlite.org/rescode.html
    private const int Busy = 5, Locked = 6, ReadOnly = 8, InOut = 10, Corrupt = 11, Full = 13, CannotOpen = 14, NotADatabase = 26;

    // Of the operating systems: no space left on Unix (28) and on Windows (0x70 and 0x27).
    private const int NoSpaceUnix = 28, DiskFullWindows = 0x70, HandleDiskFullWindows = 0x27;

    /// <summary>The sentence for a fault of the storage; null for any other exception.</summary>
    public static string? Explain(Exception? exception) => exception switch
    {
        SqliteException { SqliteErrorCode: Full } => DiskIsFull,
        SqliteException { SqliteErrorCode: Busy or Locked } => Say("The database is held by another program, such as a backup or a virus scanner. Nothing of this was stored. Close that program, and try again."),
        SqliteException { SqliteErrorCode: ReadOnly or CannotOpen } or UnauthorizedAccessException => Say("The data folder cannot be written to. Nothing of this was stored. Give the program the right to write there, or start it with another folder (--data)."),
        SqliteException { SqliteErrorCode: Corrupt or NotADatabase } => Say("The database is damaged. Nothing of this was stored. Stop the program, keep the damaged file, and put the newest copy from the backups folder in its place."),
        SqliteException { SqliteErrorCode: InOut } => Say("The disk did not take or give what was asked of it: it may be full, unplugged or failing. Nothing of this was stored. Look at the disk, and try again."),
        BackupException or DatabaseException => exception.Message,
        IOException { HResult: var code } when (code & 0xFFFF) is NoSpaceUnix or DiskFullWindows or HandleDiskFullWindows => DiskIsFull,
        IOException => Say($"The disk did not take or give what was asked of it: {exception.Message} Nothing of this was stored."),
        _ => null,
    };

    /// <summary>507 where space is missing, 503 where trying again may help, else 500.</summary>
    public static int StatusOf(Exception exception) => exception switch
    {
        _ when Explain(exception) == DiskIsFull => StatusCodes.Status507InsufficientStorage,
        SqliteException { SqliteErrorCode: Busy or Locked } => StatusCodes.Status503ServiceUnavailable,
        _ => StatusCodes.Status500InternalServerError,
    };

    private static string DiskIsFull => Say("The disk is full. Nothing of this was stored, and what was stored before is whole. Make room on the disk, and try again.");
}
