using KittingBee.Web.Sharing;
using KittingBee.Web.Tests.Packing;
using KittingBee.Web.Tests.Sharing;
using Microsoft.AspNetCore.Http;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Face;

/// <summary>A shared guild with a class that helpers may join, listening for a browser.</summary>
public sealed class OpenDoor : GuildHost, IAsyncLifetime
{
    public Uri Address { get; private set; } = new("about:blank");

    public string Link { get; private set; } = "";

    public async ValueTask InitializeAsync()
    {
        Address = Listen();
        var classId = await ExampleClass.Store(this, 2);
        await Get<TeacherPassword>().Set(SharedHost.Password);
        await Get<SharingDesk>().Start(https: false);
        Assert.True(await Get<SharingDesk>().MakeJoinCode(classId, TimeSpan.FromHours(3), DateTimeOffset.UtcNow, new DefaultHttpContext()));
        Link = Get<ShareStore>().Joins().Single().Link;
    }
}

/// <summary>The pages that only somebody outside sees, of a guild that is shared: the door, and a scanned join code.</summary>
public sealed class DoorTests(OpenDoor guild, Browser browser) : IClassFixture<OpenDoor>, IClassFixture<Browser>
{
    [Theory]
    [InlineData("/sign-in")]
    [InlineData("/join/{link}")]
    public async Task Door_HasNoFaultThatAxeFinds(string address)
    {
        var page = await browser.NewPage(1280, 900);
        try
        {
            await page.EmulateMediaAsync(new() { ReducedMotion = ReducedMotion.Reduce });
            var answer = await page.GotoAsync(new Uri(guild.Address, address.Replace("{link}", guild.Link, StringComparison.Ordinal)).ToString());
            Assert.Equal(200, answer!.Status);
            Assert.Empty(await page.FaultsThatAxeFinds());
            await page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Dark, ReducedMotion = ReducedMotion.Reduce });
            await page.SetViewportSizeAsync(360, 800);
            Assert.Empty(await page.FaultsThatAxeFinds());
            Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= 360);
        }
        finally
        {
            await page.CloseAsync();
        }
    }
}
