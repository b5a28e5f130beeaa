namespace KittingBee.Web.Showing;

/// <summary>Addresses of the pages that others link to.</summary>
public static class PageAddresses
{
    public static string Class(long classId, string? stage = null) => stage is null ? $"/classes/{classId}" : $"/classes/{classId}/{stage}";

    public static string Block(long blockId) => $"/blocks/{blockId}";

    public static string Project(long projectId) => $"/projects/{projectId}";

    /// <summary>A bag's own page, which its QR code leads to.</summary>
    public static string Bag(string code) => $"/bag/{code}";

    /// <summary>A copy of the database, and what putting it back would change.</summary>
    public static string Backup(string name) => $"/settings/backups/{name}";

    /// <summary>Where a form posts to in order to put a copy back.</summary>
    public static string PutBack(string name) => $"{Backup(name)}?handler=Restore";

    /// <summary>A student's own page.</summary>
    public static string Own(string link) => $"/own/{link}";
}
