using KittingBee.Web.Sharing;
using KittingBee.Web.Tests.Storage;

namespace KittingBee.Web.Tests.Sharing;

public sealed class DevicesTests : IDisposable
{
    private readonly TemporaryGuild guild = new();
    private readonly SetClock clock = new(new(2031, 4, 12, 18, 0, 0, TimeSpan.Zero));

    [Theory]
    [InlineData(119, true)]
    [InlineData(121, false)]
    public async Task Teacher_AwayForTwoHours_SignsInAnew(int minutes, bool stays)
    {
        var devices = New();
        var token = await devices.SignIn(Role.Teacher, null, "");
        clock.Now += TimeSpan.FromMinutes(minutes);
        Assert.Equal(stays, devices.Find(token) is not null);
    }

    [Fact]
    public async Task Teacher_BusyAllDay_SignsInAnewAfterTwelveHours()
    {
        var devices = New();
        var token = await devices.SignIn(Role.Teacher, null, "");
        for (var quarter = 1; quarter < 48; quarter++)
        {
            clock.Now += TimeSpan.FromMinutes(15);
            Assert.NotNull(devices.Find(token));
        }

        clock.Now += TimeSpan.FromMinutes(16);
        Assert.Null(devices.Find(token));
    }

    [Fact]
    public async Task Device_OutlivesTheProgram_UntilItIsCutOff()
    {
        var token = await New().SignIn(Role.Teacher, null, "");
        var again = New();
        Assert.NotNull(again.Find(token));
        Assert.Null(again.Find(Secrets.Token()));
        Assert.Equal(1, await again.Cut(_ => true));
        Assert.Null(again.Find(token));
        Assert.Null(New().Find(token));
    }

    [Fact]
    public async Task Sweep_EndsWhatOnlyListens_AndStoresWhenTheOthersWereSeen()
    {
        var devices = New();
        var idle = await devices.SignIn(Role.Teacher, null, "");
        var ends = devices.Find(idle)!.Cut;
        clock.Now += TimeSpan.FromMinutes(90);
        var busy = await devices.SignIn(Role.Teacher, null, "");
        clock.Now += TimeSpan.FromMinutes(31);
        devices.Find(busy);
        await devices.Sweep();
        Assert.True(ends.IsCancellationRequested);
        Assert.Equal("2031-04-12T20:01:00.000Z", Assert.Single(new ShareStore(guild.Database).Devices()).SeenAt);
    }

    [Fact]
    public async Task Database_HoldsNoToken()
    {
        var token = await New().SignIn(Role.Teacher, null, "");
        var stored = Assert.Single(new ShareStore(guild.Database).Devices());
        Assert.Equal(64, stored.TokenHash.Length);
        Assert.DoesNotContain(token, stored.TokenHash, StringComparison.Ordinal);
    }

    public void Dispose() => guild.Dispose();

    private Devices New() => new(new ShareStore(guild.Database), clock);
}
