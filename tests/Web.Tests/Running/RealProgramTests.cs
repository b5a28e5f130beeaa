using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;

namespace KittingBee.Web.Tests.Running;

/// <summary>Starts the program as a person does, in a process of its own.</summary>
public sealed partial class RealProgramTests : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("kitting-bee-real-").FullName;

    [Fact]
    public async Task Demo_FromAnotherFolder_IsThereToLookAt()
    {
        using var program = Start("--demo", "--data", folder, "--urls", "http://127.0.0.1:0");
        var address = await Address(program);
        using var client = new HttpClient { BaseAddress = address };
        Assert.Contains("Larkfield Piecers", await client.GetStringAsync(new Uri("/", UriKind.Relative), TestContext.Current.CancellationToken), StringComparison.Ordinal);
        Assert.Contains("--indigo", await client.GetStringAsync(new Uri("/site.css", UriKind.Relative), TestContext.Current.CancellationToken), StringComparison.Ordinal);
        program.Kill();
        await program.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.False(File.Exists(Path.Combine(folder, "kitting-bee.db")), "The demonstration keeps to a folder of its own.");
        Assert.True(File.Exists(Path.Combine(folder, "demonstration", "kitting-bee.db")));
    }

    [Theory]
    [InlineData(2, "Unknown option '--dmeo'", "--dmeo")]
    [InlineData(2, "this machine only", "--urls", "http://0.0.0.0:5210")]
    [InlineData(0, "--demo", "--help")]
    public async Task Options_ThatCannotBe_EndItWithAMessage(int code, string said, params string[] arguments)
    {
        using var program = Start(arguments);
        var text = await program.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken) + await program.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await program.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Contains(said, text, StringComparison.Ordinal);
        Assert.Equal(code, program.ExitCode);
    }

    [Fact]
    public async Task SecondProgram_OnOneFolderOrAddress_IsRefused()
    {
        using var first = Start("--data", folder, "--urls", "http://127.0.0.1:0");
        var address = await Address(first);

        using var sameFolder = Start("--data", folder, "--urls", "http://127.0.0.1:0");
        Assert.Contains("already running", await sameFolder.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        await sameFolder.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(3, sameFolder.ExitCode);

        using var sameAddress = Start("--data", Path.Combine(folder, "other"), "--urls", address.ToString());
        Assert.Contains("in use by another program", await sameAddress.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        await sameAddress.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.Equal(4, sameAddress.ExitCode);

        first.Kill();
        await first.WaitForExitAsync(TestContext.Current.CancellationToken);
    }

    // Kathmandu is 5 hours and 45 minutes ahead of UTC all year (IANA time zone database, zone Asia/Kathmandu, since 1986).
    [Fact]
    public async Task Trail_OnAMachineElsewhere_IsToldByThatMachinesClock()
    {
        Assert.SkipUnless(File.Exists("/usr/share/zoneinfo/Asia/Kathmandu"), "This machine's time zones are not where TZ names them.");
        using var program = Start([("TZ", "Asia/Kathmandu")], "--demo", "--data", folder, "--urls", "http://127.0.0.1:0");
        using var client = new HttpClient { BaseAddress = await Address(program) };
        var trail = await client.GetStringAsync(new Uri("/classes/1/pack/history", UriKind.Relative), TestContext.Current.CancellationToken);
        var told = Told().Matches(trail);
        Assert.NotEmpty(told);
        Assert.All(told, time => Assert.Equal(
            DateTimeOffset.Parse(time.Groups["stored"].Value, CultureInfo.InvariantCulture).UtcDateTime.AddHours(5.75).ToString("d MMMM yyyy, HH:mm", CultureInfo.InvariantCulture),
            time.Groups["said"].Value));
        program.Kill();
        await program.WaitForExitAsync(TestContext.Current.CancellationToken);
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    private static Process Start(params string[] arguments) => Start([], arguments);

    private static Process Start((string Name, string Value)[] environment, params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet") { RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = Path.GetTempPath() };
        start.ArgumentList.Add(typeof(Program).Assembly.Location);
        foreach (var argument in arguments)
        {
            start.ArgumentList.Add(argument);
        }

        foreach (var (name, value) in environment)
        {
            start.Environment[name] = value;
        }

        return Process.Start(start)!;
    }

    private static async Task<Uri> Address(Process program)
    {
        var line = await program.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken).AsTask().WaitAsync(TimeSpan.FromMinutes(1), TestContext.Current.CancellationToken);
        return new Uri(Listening().Match(line ?? await program.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken)).Value);
    }

    [GeneratedRegex("http://127\\.0\\.0\\.1:[0-9]+")]
    private static partial Regex Listening();

    [GeneratedRegex("<time datetime=\"(?<stored>[^\"]+)\">(?<said>[^<]+)</time>")]
    private static partial Regex Told();
}
