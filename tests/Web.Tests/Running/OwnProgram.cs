using System.Diagnostics;
using System.Text.RegularExpressions;

namespace KittingBee.Web.Tests.Running;

/// <summary>The program in a process of its own, which a test may kill.</summary>
internal sealed partial class OwnProgram : IDisposable
{
    private readonly Process process;

    private OwnProgram(Process process, Uri address)
    {
        this.process = process;
        Address = address;
    }

    public Uri Address { get; }

    public static async Task<OwnProgram> Start(string folder)
    {
        var process = Begin(folder);
        process.ErrorDataReceived += (_, _) => { };
        process.BeginErrorReadLine();
        while (await process.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken) is { } line)
        {
            if (Listening().Match(line) is { Success: true } match)
            {
                return new OwnProgram(process, new Uri(match.Value));
            }
        }

        throw new InvalidOperationException("The program did not start.");
    }

    /// <summary>Starts it where it must refuse to run; gives its exit code and what it said.</summary>
    public static async Task<(int Code, string Said)> Refused(string folder)
    {
        using var process = Begin(folder);
        var said = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        return (process.ExitCode, said);
    }

    public void Kill()
    {
        process.Kill();
        process.WaitForExit();
    }

    public void Dispose()
    {
        if (!process.HasExited)
        {
            Kill();
        }

        process.Dispose();
    }

    private static Process Begin(string folder) => Process.Start(new ProcessStartInfo("dotnet", [typeof(Program).Assembly.Location, "--data", folder, "--urls", "http://127.0.0.1:0"])
    {
        RedirectStandardOutput = true, RedirectStandardError = true, UseShellExecute = false,
        Environment = { ["DOTNET_TieredPGO"] = "0" }, // It lives too short a time to gain from being measured.
    })!;

    [GeneratedRegex("http://127\\.0\\.0\\.1:[0-9]+")]
    private static partial Regex Listening();
}
