using System.Globalization;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.RateLimiting;

namespace KittingBee.Web.Sharing;

/// <summary>How fast one device may ask while the guild is shared: no phone gone wild takes the machine from the others. Alone there is nobody to be kept from it.</summary>
public static class RateLimits
{
    /// <summary>For calls that plan: each may take a second of the machine.</summary>
    public const string Planning = "planning";

    /// <summary>For calls that stay open: each holds a place in the table's list of onlookers.</summary>
    public const string Listening = "listening";

    // A phone has one packing table open, now and then a few.
    private const int MostOpen = 20;

    public static IServiceCollection AddRateLimits(this IServiceCollection services) => services.AddRateLimiter(options =>
    {
        options.RejectionStatusCode = StatusCodes.Status429TooManyRequests;
        options.OnRejected = static (rejected, _) =>
        {
            rejected.HttpContext.Response.Headers.RetryAfter = "5";
            return ValueTask.CompletedTask;
        };

        // A packing table with two thousand kits is one page and some marks: these are tens of times what busy hands need.
        options.GlobalLimiter = PartitionedRateLimiter.Create<HttpContext, string>(context => Of(context, burst: 200, aSecond: 20));
        options.AddPolicy(Planning, context => Of(context, burst: 20, aSecond: 2));
        options.AddPolicy(Listening, context => IsShared(context)
            ? RateLimitPartition.GetConcurrencyLimiter(NameOf(context), _ => new ConcurrencyLimiterOptions { PermitLimit = MostOpen, QueueLimit = 0 })
            : RateLimitPartition.GetNoLimiter("alone"));
    });

    private static RateLimitPartition<string> Of(HttpContext context, int burst, int aSecond) =>
        IsShared(context)
            ? RateLimitPartition.GetTokenBucketLimiter(NameOf(context), _ => new TokenBucketRateLimiterOptions
            {
                TokenLimit = burst, TokensPerPeriod = aSecond, ReplenishmentPeriod = TimeSpan.FromSeconds(1), QueueLimit = 0, AutoReplenishment = true,
            })
            : RateLimitPartition.GetNoLimiter("alone");

    private static bool IsShared(HttpContext context) => context.RequestServices.GetRequiredService<SharingState>().IsShared;

    private static string NameOf(HttpContext context) => context.User.DeviceId() is { } device
        ? device.ToString(CultureInfo.InvariantCulture)
        : $"from {context.Connection.RemoteIpAddress}";
}
