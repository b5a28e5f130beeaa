using System.Globalization;
using System.Threading.Channels;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Packing;

/// <summary>
/// Server-sent events of one class's table. An event's id is the sequence of the last mark in it, and sequences are in the
/// database: a page that was away names the last id it saw and misses nothing, even if the program was started anew.
/// </summary>
public static class TableEvents
{
    // Often enough that a page notices within half a minute that the line is dead.
    private static readonly TimeSpan HeartBeat = TimeSpan.FromSeconds(10);

    public static async Task Listen(long classId, HttpContext context, ClassStore classes, MarkDesk desk, IHostApplicationLifetime lifetime)
    {
        if (classes.Find(classId) is null)
        {
            context.Response.StatusCode = StatusCodes.Status404NotFound;
            return;
        }

        context.Response.ContentType = "text/event-stream";
        context.Response.Headers.CacheControl = "no-cache, no-store";
        using var ends = CancellationTokenSource.CreateLinkedTokenSource(context.RequestAborted, lifetime.ApplicationStopping);
        var table = desk.Table(classId);
        var channel = table.Join(Helper.NameOf(context.Request), LastSeen(context.Request));
        try
        {
            // A page that lost its line tries again after a second.
            await context.Response.WriteAsync("retry: 1000\n\n", ends.Token);
            await Forward(channel.Reader, context.Response, ends.Token);
        }
        catch (OperationCanceledException)
        {
            // The page went away, or the program stops.
        }
        finally
        {
            table.Leave(channel);
        }
    }

    private static async Task Forward(ChannelReader<ReadOnlyMemory<byte>> reader, HttpResponse response, CancellationToken ends)
    {
        while (true)
        {
            while (reader.TryRead(out var item))
            {
                await response.BodyWriter.WriteAsync(item, ends);
            }

            await response.BodyWriter.FlushAsync(ends);
            using var pause = CancellationTokenSource.CreateLinkedTokenSource(ends);
            pause.CancelAfter(HeartBeat);
            try
            {
                if (!await reader.WaitToReadAsync(pause.Token))
                {
                    return;
                }
            }
            catch (OperationCanceledException) when (!ends.IsCancellationRequested)
            {
                await response.WriteAsync("event: beat\ndata: \n\n", ends);
            }
        }
    }

    private static long LastSeen(HttpRequest request)
    {
        var text = request.Headers["Last-Event-ID"].FirstOrDefault() ?? request.Query["after"].FirstOrDefault();
        return long.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var sequence) ? sequence : 0;
    }
}
