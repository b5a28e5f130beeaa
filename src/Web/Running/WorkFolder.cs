namespace KittingBee.Web.Running;

/// <summary>A folder within the data folder for files that are only needed while something is done; it goes when that is over.</summary>
public sealed class WorkFolder : IDisposable
{
    private const string Prefix = "work-";

    public WorkFolder(DataFolder folder)
    {
        Path = System.IO.Path.Combine(folder.Path, Prefix + Guid.NewGuid().ToString("N"));
        Directory.CreateDirectory(Path);
    }

    public string Path { get; }

    /// <summary>Takes away what a program that was killed left behind.</summary>
    public static void Clear(DataFolder folder)
    {
        foreach (var left in Directory.EnumerateDirectories(folder.Path, Prefix + "*"))
        {
            Directory.Delete(left, recursive: true);
        }
    }

    public string File(string name) => System.IO.Path.Combine(Path, name);

    public void Dispose() => Directory.Delete(Path, recursive: true);
}
