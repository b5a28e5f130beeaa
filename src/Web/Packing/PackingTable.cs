using System.Text;
using System.Text.Json;
using System.Threading.Channels;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Packing;

/// <summary>One class's packing table in memory: how every line stands, and who looks on. Built from the stored marks, and only ever behind them.</summary>
public sealed class PackingTable
{
    // A page so far behind is let go; it comes back and asks for what it missed.
    private const int MostWaiting = 500;

    private readonly Lock guard = new();
    private readonly Dictionary<(long Kit, string Line), List<KitMark>> lines = [];
    private readonly Dictionary<Channel<ReadOnlyMemory<byte>>, string> onlookers = [];

    public PackingTable(IReadOnlyList<KitMark> marks) => Take(marks);

    /// <summary>The last mark taken in.</summary>
    public long Sequence { get; private set; }

    /// <summary>How a line stands; null for to cut.</summary>
    public KitMark? Standing(long kit, string line)
    {
        lock (guard)
        {
            return lines.TryGetValue((kit, line), out var marks) ? KitMarks.Furthest(marks) : null;
        }
    }

    /// <summary>Every line that has a standing mark, with the sequence that this holds for.</summary>
    public (IReadOnlyDictionary<(long Kit, string Line), KitMark> Standing, long Sequence) Snapshot()
    {
        lock (guard)
        {
            var standing = new Dictionary<(long, string), KitMark>(lines.Count);
            foreach (var (line, marks) in lines)
            {
                if (KitMarks.Furthest(marks) is { } mark)
                {
                    standing.Add(line, mark);
                }
            }

            return (standing, Sequence);
        }
    }

    /// <summary>Takes stored marks in and tells everyone; marks must come in the order in which they were stored.</summary>
    public void Apply(IReadOnlyList<KitMark> marks)
    {
        lock (guard)
        {
            var changed = Take(marks);
            if (changed.Count > 0)
            {
                Tell(Change(changed).AsEvent());
            }
        }
    }

    /// <summary>How the lines of these marks stand now.</summary>
    public TableChange Lines(IEnumerable<KitMark> marks)
    {
        lock (guard)
        {
            return Change([.. marks.Select(mark => (mark.KitId, mark.Line)).Distinct()]);
        }
    }

    /// <summary>How the lines stand now that changed after a sequence.</summary>
    public TableChange Since(long after)
    {
        lock (guard)
        {
            return Change(ChangedAfter(after));
        }
    }

    /// <summary>Tells everyone that something other than a mark changed on the table, so that a page asks for it.</summary>
    public void TellOfShortages()
    {
        lock (guard)
        {
            Tell("event: shortages\ndata: {}\n\n");
        }
    }

    /// <summary>Tells everyone that what they show may never have happened, so that a page loads anew.</summary>
    public void TellOfRestore()
    {
        lock (guard)
        {
            Tell("event: restored\ndata: {}\n\n");
        }
    }

    /// <summary>Starts listening: first what happened after a sequence, then all that happens.</summary>
    public Channel<ReadOnlyMemory<byte>> Join(string who, long after)
    {
        var channel = Channel.CreateBounded<ReadOnlyMemory<byte>>(new BoundedChannelOptions(MostWaiting) { SingleReader = true });
        lock (guard)
        {
            var missed = ChangedAfter(after);
            if (missed.Count > 0)
            {
                channel.Writer.TryWrite(Encoding.UTF8.GetBytes(Change(missed).AsEvent()));
            }

            onlookers.Add(channel, who);
            TellWhoIsHere();
        }

        return channel;
    }

    public void Leave(Channel<ReadOnlyMemory<byte>> channel)
    {
        lock (guard)
        {
            if (onlookers.Remove(channel))
            {
                TellWhoIsHere();
            }
        }
    }

    /// <summary>Sends everyone away.</summary>
    public void Close()
    {
        lock (guard)
        {
            foreach (var channel in onlookers.Keys)
            {
                channel.Writer.TryComplete();
            }

            onlookers.Clear();
        }
    }

    /// <summary>Names of those with a page open, each once.</summary>
    public IReadOnlyList<string> Here()
    {
        lock (guard)
        {
            return [.. onlookers.Values.Where(name => name.Length > 0).Distinct(StringComparer.OrdinalIgnoreCase).Order(StringComparer.OrdinalIgnoreCase)];
        }
    }

    private HashSet<(long Kit, string Line)> Take(IReadOnlyList<KitMark> marks)
    {
        var changed = new HashSet<(long, string)>();
        foreach (var mark in marks.Where(mark => mark.Sequence > Sequence))
        {
            var key = (mark.KitId, mark.Line);
            if (!lines.TryGetValue(key, out var line))
            {
                lines.Add(key, line = []);
            }

            line.Add(mark);
            changed.Add(key);
            Sequence = mark.Sequence;
        }

        return changed;
    }

    private List<(long Kit, string Line)> ChangedAfter(long sequence) =>
        [.. lines.Where(line => line.Value[^1].Sequence > sequence).Select(line => line.Key)];

    private TableChange Change(IReadOnlyCollection<(long Kit, string Line)> keys) =>
        new(Sequence, [.. keys.Select(key => LineChange.Of(key.Kit, key.Line, lines.TryGetValue(key, out var line) ? KitMarks.Furthest(line) : null))]);

    private void TellWhoIsHere() => Tell($"event: here\ndata: {JsonSerializer.Serialize(Here())}\n\n");

    private void Tell(string text)
    {
        ReadOnlyMemory<byte> bytes = Encoding.UTF8.GetBytes(text);
        foreach (var channel in onlookers.Keys.Where(channel => !channel.Writer.TryWrite(bytes)).ToList())
        {
            channel.Writer.TryComplete();
            onlookers.Remove(channel);
        }
    }
}
