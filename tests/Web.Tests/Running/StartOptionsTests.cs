using KittingBee.Web.Running;

namespace KittingBee.Web.Tests.Running;

public sealed class StartOptionsTests
{
    [Fact]
    public void Read_Nothing_ListensOnThisMachineOnly()
    {
        var (options, message) = StartOptions.Read([]);
        Assert.Null(message);
        Assert.Equal(new StartOptions(false, null, "http://127.0.0.1:5210"), options);
    }

    [Theory]
    [InlineData("--demo", "--data", "/tmp/bees", "--urls", "http://localhost:6000")]
    [InlineData("--data=/tmp/bees", "--urls=http://localhost:6000", "--demo")]
    public void Read_Options_EitherForm(params string[] arguments) =>
        Assert.Equal(new StartOptions(true, "/tmp/bees", "http://localhost:6000"), StartOptions.Read(arguments).Options);

    [Theory]
    [InlineData("--share", true, false, true)]
    [InlineData("--https", true, true, true)]
    [InlineData("--no-browser", false, false, false)]
    public void Read_Switches_ChangeOneThingEach(string argument, bool share, bool https, bool browser)
    {
        var options = StartOptions.Read([argument]).Options!;
        Assert.Equal((share, https, browser), (options.Share, options.Https, options.OpensBrowser));
    }

    [Theory]
    [InlineData("--share=perhaps", "--share")]
    [InlineData("--dmeo", "--dmeo")]
    [InlineData("--data", "folder")]
    [InlineData("--data=", "folder")]
    [InlineData("--urls", "address")]
    [InlineData("--urls=ftp://127.0.0.1", "ftp://127.0.0.1")]
    [InlineData("--urls=http://0.0.0.0:5210", "0.0.0.0")]
    [InlineData("--urls=http://192.0.2.7:5210", "192.0.2.7")]
    [InlineData("--urls=http://*:5210", "http://*:5210")]
    [InlineData("guild.db", "guild.db")]
    public void Read_BadOption_SaysWhich(string argument, string named)
    {
        var (options, message) = StartOptions.Read([argument]);
        Assert.Null(options);
        Assert.Contains(named, message, StringComparison.Ordinal);
    }

    [Fact]
    public void DataFolder_InUse_IsRefused()
    {
        var path = Directory.CreateTempSubdirectory("kitting-bee-folder-").FullName;
        try
        {
            using var first = DataFolder.Open(new StartOptions(false, path, StartOptions.DefaultUrls));
            var refused = Assert.Throws<DataFolderException>(() => DataFolder.Open(new StartOptions(false, path, StartOptions.DefaultUrls)));
            Assert.Contains("already running", refused.Message, StringComparison.Ordinal);
            Assert.Contains(path, refused.Message, StringComparison.Ordinal);
        }
        finally
        {
            Directory.Delete(path, recursive: true);
        }
    }

    [Fact]
    public void DataFolder_ThatIsMadeNew_IsItsOwnersAlone()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Windows keeps others out of the user's own folder.");
        var above = Directory.CreateTempSubdirectory("kitting-bee-folder-").FullName;
        try
        {
            using var folder = DataFolder.Open(new StartOptions(false, Path.Combine(above, "guild"), StartOptions.DefaultUrls));
            if (!OperatingSystem.IsWindows()) // The compiler does not know that the test is skipped there.
            {
                Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute, File.GetUnixFileMode(folder.Path));
            }
        }
        finally
        {
            Directory.Delete(above, recursive: true);
        }
    }

    [Fact]
    public void DataFolder_ThatIsAFile_IsRefused()
    {
        var file = Path.GetTempFileName();
        try
        {
            var refused = Assert.Throws<DataFolderException>(() => DataFolder.Open(new StartOptions(false, file, StartOptions.DefaultUrls)));
            Assert.Contains("--data", refused.Message, StringComparison.Ordinal);
        }
        finally
        {
            File.Delete(file);
        }
    }

    [Fact]
    public void DataFolder_OfTheDemonstration_StartsAfreshAndLeavesTheGuildAlone()
    {
        var path = Directory.CreateTempSubdirectory("kitting-bee-folder-").FullName;
        try
        {
            File.WriteAllText(Path.Combine(path, "kitting-bee.db"), "a guild's own");
            Directory.CreateDirectory(Path.Combine(path, "demonstration"));
            File.WriteAllText(Path.Combine(path, "demonstration", "kitting-bee.db"), "yesterday's");
            using var demonstration = DataFolder.Open(new StartOptions(true, path, StartOptions.DefaultUrls));
            Assert.False(File.Exists(demonstration.DatabaseFile));
            Assert.Equal("a guild's own", File.ReadAllText(Path.Combine(path, "kitting-bee.db")));
        }
        finally
        {
            Directory.Delete(path, recursive: true);
        }
    }
}
