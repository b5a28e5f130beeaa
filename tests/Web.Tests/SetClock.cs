namespace KittingBee.Web.Tests;

/// <summary>A clock that a test sets, backwards too.</summary>
internal sealed class SetClock(DateTimeOffset now) : TimeProvider
{
    public DateTimeOffset Now { get; set; } = now;

    public override DateTimeOffset GetUtcNow() => Now;
}
