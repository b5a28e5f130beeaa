using KittingBee.Web.Running;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Backups;

/// <summary>No copy could be made, so what should have followed was not done; the message is for people.</summary>
public sealed class BackupException(string message, Exception? inner = null) : Exception(message, inner);

/// <summary>Makes copies of the database, keeps them by a rule, and finds them again.</summary>
public sealed class BackupBook(Database database, DataFolder folder, TimeProvider clock)
{
    private readonly Lock one = new();

    /// <summary>Why the last automatic copy could not be made; null when it was.</summary>
    public string? LastProblem { get; private set; }

    public string Folder => folder.Backups;

    /// <summary>Newest first.</summary>
    public IReadOnlyList<BackupFile> All() => BackupFile.In(folder.Backups);

    public BackupFile? Find(string? name) => All().FirstOrDefault(copy => copy.Name == name);

    public string PathOf(BackupFile copy) => Path.Combine(folder.Backups, copy.Name);

    /// <summary>Makes a checked copy, and lets go of those that the rule no longer keeps.</summary>
    /// <exception cref="BackupException">It could not be made; nothing else was done.</exception>
    public BackupFile Make(string why)
    {
        lock (one)
        {
            try
            {
                Directory.CreateDirectory(folder.Backups);
                var file = BackupFile.Next(folder.Backups, why, clock.GetUtcNow());
                database.CopyTo(file);
                foreach (var surplus in BackupRule.Surplus(All(), clock.GetUtcNow()))
                {
                    File.Delete(PathOf(surplus));
                }

                LastProblem = null;
                return BackupFile.Read(Path.GetFileName(file), new FileInfo(file).Length)!;
            }
            catch (Exception e) when (StorageFaults.Explain(e) is { } fault)
            {
                throw new BackupException(Say($"No copy of the database could be made, and so nothing was changed. {fault}"), e);
            }
        }
    }

    /// <summary>Makes a copy where the last is older than that; a problem is kept for the page instead of thrown.</summary>
    public void MakeWhenDue(string why, TimeSpan age)
    {
        if (!BackupRule.IsDue(All() is [var last, ..] ? last : null, age, clock.GetUtcNow()))
        {
            return;
        }

        try
        {
            Make(why);
        }
        catch (BackupException e)
        {
            LastProblem = e.Message;
        }
    }

    public void Delete(BackupFile copy) => File.Delete(PathOf(copy));
}
