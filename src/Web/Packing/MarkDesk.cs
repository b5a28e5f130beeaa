using System.Collections.Concurrent;
using System.Threading.Channels;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Packing;

/// <summary>
/// Takes marks from everyone. Marks that arrive while the disk is busy go down together in one transaction, and each sender
/// gets an answer only when that is on the disk. Then the class's table is told.
/// </summary>
public sealed class MarkDesk : IAsyncDisposable
{
    // One transaction stays short, so that other writers are not kept waiting.
    private const int MostTogether = 1000;

    private readonly PackingStore store;
    private readonly ConcurrentDictionary<long, Lazy<PackingTable>> tables = new();
    private readonly Channel<Parcel> inbox = Channel.CreateUnbounded<Parcel>(new UnboundedChannelOptions { SingleReader = true });
    private readonly Task work;

    public MarkDesk(PackingStore store)
    {
        this.store = store;
        work = Task.Run(Work);
    }

    /// <summary>The class's table as it is stored.</summary>
    public PackingTable Table(long classId) =>
        tables.GetOrAdd(classId, id => new Lazy<PackingTable>(
            () => new PackingTable(store.MarksAfter(id, 0)),
            LazyThreadSafetyMode.PublicationOnly)).Value; // A reading that failed is not remembered.

    /// <summary>True for a class whose table is open already; whether a class exists is asked of the database only once.</summary>
    public bool Knows(long classId) => tables.ContainsKey(classId);

    /// <summary>Stores marks in order, once each; answers when they are on the disk.</summary>
    public async Task<IReadOnlyList<MarkReceipt>> Mark(long classId, IReadOnlyList<NewMark> marks)
    {
        if (marks.Count == 0)
        {
            return [];
        }

        var parcel = new Parcel(classId, marks);
        await inbox.Writer.WriteAsync(parcel);
        return await parcel.Answer.Task;
    }

    /// <summary>Lets go of a class's table, so that it is read anew; open pages come back by themselves.</summary>
    public void Forget(long classId)
    {
        if (tables.TryRemove(classId, out var table) && table.IsValueCreated)
        {
            table.Value.Close();
        }
    }

    /// <summary>Lets go of every table, because the database under them is another one now: open pages load anew.</summary>
    public void ForgetAll()
    {
        foreach (var classId in tables.Keys)
        {
            if (tables.TryRemove(classId, out var table) && table.IsValueCreated)
            {
                table.Value.TellOfRestore();
                table.Value.Close();
            }
        }
    }

    public async ValueTask DisposeAsync()
    {
        inbox.Writer.TryComplete();
        await work;
    }

    private async Task Work()
    {
        while (await inbox.Reader.WaitToReadAsync())
        {
            var together = new List<Parcel>();
            var count = 0;
            while (count < MostTogether && inbox.Reader.TryRead(out var parcel))
            {
                together.Add(parcel);
                count += parcel.Marks.Count;
            }

            await Store(together);
        }
    }

    private async Task Store(List<Parcel> together)
    {
        IReadOnlyList<MarkReceipt> receipts;
        try
        {
            // A table must be there before the marks are, or it might read them and then be told of them out of turn.
            foreach (var classId in together.Select(parcel => parcel.ClassId).Distinct())
            {
                Table(classId);
            }

            receipts = await store.Mark([.. together.SelectMany(parcel => parcel.Marks.Select(mark => (parcel.ClassId, mark)))]);
        }
#pragma warning disable CA1031 // Whatever went wrong, each sender is told, nothing is stored, and the desk goes on.
        catch (Exception exception)
#pragma warning restore CA1031
        {
            foreach (var parcel in together)
            {
                parcel.Answer.SetException(exception);
            }

            return;
        }

        Tell(receipts);
        var at = 0;
        foreach (var parcel in together)
        {
            parcel.Answer.SetResult([.. receipts.Skip(at).Take(parcel.Marks.Count)]);
            at += parcel.Marks.Count;
        }
    }

    private void Tell(IReadOnlyList<MarkReceipt> receipts)
    {
        foreach (var ofClass in receipts.Where(receipt => receipt.Outcome == MarkOutcome.Stored).Select(receipt => receipt.Mark!).GroupBy(mark => mark.ClassId))
        {
            Table(ofClass.Key).Apply([.. ofClass]);
        }
    }

    private sealed record Parcel(long ClassId, IReadOnlyList<NewMark> Marks)
    {
        public TaskCompletionSource<IReadOnlyList<MarkReceipt>> Answer { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);
    }
}
