using KittingBee.Web.Storage;

namespace KittingBee.Web.Running;

/// <summary>Starts the program, or says in one sentence why it cannot.</summary>
public static class Starting
{
    /// <summary>Runs <paramref name="program"/> with the options read; gives the exit code.</summary>
    public static int Run(string[] arguments, Action<StartOptions, DataFolder> program)
    {
        ReaderLanguage.ForgetMachine();
        var (options, message) = StartOptions.Read(arguments);
        if (options is null)
        {
            var asked = message == StartOptions.Help;
            (asked ? Console.Out : Console.Error).WriteLine(message);
            Browsers.WaitForReader();
            return asked ? 0 : 2;
        }

        try
        {
            using var folder = DataFolder.Open(options);
            program(options, folder);
            return 0;
        }
        catch (DataFolderException e) when (e.RunningAt is { } address && Browsers.IsRelease && options.OpensBrowser)
        {
            // The second double click means: show me the one that runs.
            Browsers.Open(address);
            return 0;
        }
        catch (Exception e) when (e is DataFolderException or DatabaseException)
        {
            Console.Error.WriteLine(e.Message);
            Browsers.WaitForReader();
            return 3;
        }
        catch (IOException e) when (e.InnerException is Microsoft.AspNetCore.Connections.AddressInUseException)
        {
            Console.Error.WriteLine($"{options.Urls} is in use by another program. Choose another address with --urls, such as http://127.0.0.1:5211.");
            Browsers.WaitForReader();
            return 4;
        }
    }

    /// <summary>Says where the guild is kept and where to look, once the program listens; a release shows its first page.</summary>
    public static void AnnounceWhenStarted(this WebApplication app, StartOptions options, DataFolder folder) => app.Lifetime.ApplicationStarted.Register(() =>
    {
        var address = app.Urls.First();
        Console.WriteLine($"Kitting Bee is ready on {string.Join(", ", app.Urls)} and keeps {(folder.IsDemonstration ? "the demonstration guild" : "its data")} in {folder.Path}");
        folder.RememberAddress(address);
        if (Browsers.IsRelease && options.OpensBrowser)
        {
            Browsers.Open(address);
        }
    });
}
