namespace KittingBee.Web.Storage;

/// <summary>
/// Tables that say who may use this program on this machine. They are neither put back from a copy nor sent in a file: an old
/// copy must not bring back a password that was changed or a telephone that was cut off.
/// </summary>
public static class KeptTables
{
    private static readonly HashSet<string> Names = new(["share_setting", "share_join", "share_device", "share_event"], StringComparer.Ordinal);

    public static bool Contains(string table) => Names.Contains(table);

    /// <summary>Takes away what refers to something that is not there any more.</summary>
    internal static void LetGoOfWhatIsGone(Session session, TableShape table)
    {
        foreach (var reference in table.References)
        {
            session.Run($"DELETE FROM main.\"{table.Name}\" WHERE \"{reference.Column}\" IS NOT NULL AND \"{reference.Column}\" NOT IN (SELECT \"{reference.To}\" FROM main.\"{reference.Table}\")");
        }
    }
}
