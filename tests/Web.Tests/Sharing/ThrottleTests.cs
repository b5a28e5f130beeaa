using System.Net;
using KittingBee.Web.Sharing;

namespace KittingBee.Web.Tests.Sharing;

public sealed class ThrottleTests
{
    private static readonly IPAddress One = IPAddress.Parse("192.168.1.20");

    private readonly SetClock clock = new(new(2031, 4, 12, 18, 0, 0, TimeSpan.Zero));

    [Fact]
    public void WrongTries_OfOneAddress_WaitTwiceAsLongEachTime()
    {
        var throttle = new Throttle(clock);
        var waits = new List<double>();
        for (var attempt = 0; attempt < 20; attempt++)
        {
            if (throttle.Begin(One) is { } wait)
            {
                waits.Add(wait.TotalSeconds);
                clock.Now += wait;
                attempt--;
            }
        }

        Assert.Equal([1, 2, 4, 8, 16, 32, 64, 128, 256, 512, 900, 900, 900, 900, 900], waits);
        Assert.NotNull(throttle.Begin(One));
        Assert.Null(throttle.Begin(IPAddress.Parse("192.168.1.21")));
    }

    [Fact]
    public void RightTry_WipesTheSlate()
    {
        var throttle = new Throttle(clock);
        for (var attempt = 0; attempt < 50; attempt++)
        {
            Assert.Null(throttle.Begin(One));
            throttle.Passed(One);
        }
    }

    [Fact]
    public void RightTry_BetweenWrongOnes_ClearsNothing()
    {
        // A helper has a code that always opens, and could use it between guesses at the password.
        var throttle = new Throttle(clock);
        var guesses = 0;
        for (var second = 0; second < 600; second++)
        {
            for (var attempt = 0; attempt < 4; attempt++)
            {
                guesses += throttle.Begin(One) is null ? 1 : 0;
            }

            if (throttle.Begin(One) is null)
            {
                throttle.Passed(One);
            }

            clock.Now += TimeSpan.FromSeconds(1);
        }

        Assert.InRange(guesses, 5, 16);
    }

    [Fact]
    public void ManyAddresses_AreSlowedTogether_ButNotTheMachineItself()
    {
        var throttle = new Throttle(clock);
        for (var attempt = 0; attempt < 200; attempt++)
        {
            throttle.Begin(new IPAddress([10, 0, (byte)(attempt / 250), (byte)(attempt % 250)]));
        }

        Assert.NotNull(throttle.Begin(IPAddress.Parse("10.9.9.9")));
        Assert.Null(throttle.Begin(IPAddress.Loopback));
    }

    [Fact]
    public void Memory_StaysBounded_AndANetworkOfTheNewerAddressesCountsAsOne()
    {
        var throttle = new Throttle(clock);
        for (var attempt = 0; attempt < 10_000; attempt++)
        {
            clock.Now += TimeSpan.FromSeconds(11);
            throttle.Begin(new IPAddress([0x20, 0x01, 0x0d, 0xb8, 0, 0, (byte)(attempt / 250), (byte)(attempt % 250), 0, 0, 0, 0, 0, 0, 0, 1]));
        }

        Assert.InRange(throttle.Remembered, 1, 2000);
        var other = new Throttle(clock);
        for (var attempt = 0; attempt < 5; attempt++)
        {
            Assert.Null(other.Begin(IPAddress.Parse($"2001:db8::{attempt}")));
        }

        Assert.NotNull(other.Begin(IPAddress.Parse("2001:db8::99")));
    }
}
