namespace KittingBee.Web.Running;

/// <summary>A data folder that cannot be used; the message is for the person who started the program.</summary>
public sealed class DataFolderException(string message, Exception? inner = null) : Exception(message, inner)
{
    /// <summary>Where the program answers that has the folder, or null when none has it.</summary>
    public string? RunningAt { get; init; }
}

/// <summary>The folder that holds one guild's database and its backups, locked against a second program while this one runs.</summary>
public sealed class DataFolder : IDisposable
{
    private readonly FileStream guard;

    private DataFolder(string path, bool demonstration, FileStream guard)
    {
        Path = path;
        IsDemonstration = demonstration;
        this.guard = guard;
    }

    public string Path { get; }

    public bool IsDemonstration { get; }

    public string DatabaseFile => System.IO.Path.Combine(Path, "kitting-bee.db");

    public string Keys => System.IO.Path.Combine(Path, "keys");

    public string Backups => System.IO.Path.Combine(Path, "backups");

    /// <summary>Opens the folder that the options name, making it where needed. A demonstration starts afresh in a folder of its own.</summary>
    public static DataFolder Open(StartOptions options)
    {
        var chosen = options.Data is { } data
            ? System.IO.Path.GetFullPath(data)
            : System.IO.Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.LocalApplicationData, Environment.SpecialFolderOption.DoNotVerify), "KittingBee");
        var path = options.Demo ? System.IO.Path.Combine(chosen, "demonstration") : chosen;
        try
        {
            MakeForOwnerAlone(path);
            var guard = Guard(path);
            var folder = new DataFolder(path, options.Demo, guard);
            if (options.Demo)
            {
                Storage.DatabaseFile.Delete(folder.DatabaseFile);
            }

            Directory.CreateDirectory(folder.Backups);
            return folder;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new DataFolderException($"The data folder {path} cannot be used: {e.Message} Choose another one with --data.", e);
        }
    }

    /// <summary>Others who use the machine must not read rosters and links. A folder that is there already keeps what its owner chose; on Windows the user's own folder keeps others out.</summary>
    private static void MakeForOwnerAlone(string path)
    {
        if (OperatingSystem.IsWindows())
        {
            Directory.CreateDirectory(path);
        }
        else
        {
            Directory.CreateDirectory(path, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        }
    }

    /// <summary>Writes down where this program answers, for one that is started on the same folder.</summary>
    public void RememberAddress(string address) => File.WriteAllText(AddressFile(Path), address);

    public void Dispose() => guard.Dispose();

    private static FileStream Guard(string path)
    {
        var file = System.IO.Path.Combine(path, "in-use.lock");
        try
        {
            return new FileStream(file, FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
        }
        catch (IOException e) when (File.Exists(file))
        {
            throw new DataFolderException($"The data folder {path} is in use by a Kitting Bee that is already running. Close that one, or choose another folder with --data.", e) { RunningAt = Remembered(path) };
        }
    }

    private static string AddressFile(string path) => System.IO.Path.Combine(path, "running-at.txt");

    private static string? Remembered(string path)
    {
        var file = AddressFile(path);
        return File.Exists(file) && Uri.TryCreate(File.ReadAllText(file), UriKind.Absolute, out var address) && address.IsLoopback ? address.ToString() : null;
    }
}
