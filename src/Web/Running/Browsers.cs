using System.ComponentModel;
using System.Diagnostics;

namespace KittingBee.Web.Running;

/// <summary>A release is started by a double click, so it opens the browser; a start from the sources does not.</summary>
public static class Browsers
{
    /// <summary>True in a release: one file, with the parts of the program inside it and not beside it.</summary>
    public static bool IsRelease { get; } = !File.Exists(Path.Combine(AppContext.BaseDirectory, "KittingBee.Planning.dll"));

    /// <summary>Opens the address with whatever the system opens addresses with; where there is nothing, the line on the console has to do.</summary>
    public static void Open(string address)
    {
        try
        {
            Process.Start(new ProcessStartInfo(address) { UseShellExecute = true })?.Dispose();
        }
        catch (Exception e) when (e is Win32Exception or InvalidOperationException or PlatformNotSupportedException or FileNotFoundException)
        {
            Console.WriteLine($"Open {address} in a browser.");
        }
    }

    /// <summary>Keeps the window of a double click open long enough to read why nothing came.</summary>
    public static void WaitForReader()
    {
        if (IsRelease && !Console.IsInputRedirected && !Console.IsErrorRedirected)
        {
            Console.Error.WriteLine("Press Enter to close this window.");
            Console.ReadLine();
        }
    }
}
