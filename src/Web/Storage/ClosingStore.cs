using KittingBee.Web.Settling;

namespace KittingBee.Web.Storage;

/// <summary>Something that happened to a class and stays on record.</summary>
public sealed record ClassTrace
{
    public string HappenedAt { get; init; } = "";

    public string What { get; init; } = "";
}

/// <summary>Closes classes and opens them again. The shelf, the frozen figures and the forgetting are one transaction.</summary>
public sealed class ClosingStore(Database database)
{
    private const string CloseOpen = """
        UPDATE class SET status = 'closed', closed_at = @Now, frozen_json = @frozenJson, version = version + 1
        WHERE id = @id AND version = @version AND status = 'open' AND deleted_at IS NULL
        """;

    // The frozen figures stay until the class is closed anew, so that what was said once can be looked up.
    private const string Reopen = """
        UPDATE class SET status = 'open', closed_at = NULL, version = version + 1
        WHERE id = @id AND version = @version AND status = 'closed' AND deleted_at IS NULL
        """;

    private const string Trace = "INSERT INTO class_trace (class_id, happened_at, what) VALUES (@id, @Now, @what)";

    private const string SelectTraces = "SELECT happened_at AS HappenedAt, what FROM class_trace WHERE class_id = @classId ORDER BY id";

    private const string TakeSome = "UPDATE shelf_piece SET count = count - @Count, version = version + 1 WHERE id = @ShelfPieceId AND deleted_at IS NULL AND count > @Count";

    private const string TakeAll = "UPDATE shelf_piece SET deleted_at = @Now, version = version + 1 WHERE id = @ShelfPieceId AND deleted_at IS NULL";

    // What was cut stays the class's own, so that its plan is the same when it is opened again.
    private const string FreeUncut = "UPDATE shelf_piece SET reserved_class_id = NULL, version = version + 1 WHERE reserved_class_id = @id AND deleted_at IS NULL";

    private const string PutBackAll = "UPDATE shelf_piece SET deleted_at = NULL, version = version + 1 WHERE id = @ShelfPieceId AND deleted_at IS NOT NULL";

    private const string PutBackSome = "UPDATE shelf_piece SET count = count + @Count, version = version + 1 WHERE id = @ShelfPieceId";

    private const string ForgetStudents = """
        UPDATE student SET name = 'Student ' || coalesce((SELECT k.number FROM kit k WHERE k.student_id = student.id), student.position),
          contact = '', note = '', large_print = 0, left_handed = 0, version = version + 1
        WHERE class_id = @id
        """;

    private const string ForgetMarkers = "UPDATE kit_mark SET who = 'somebody' WHERE class_id = @id";

    private const string ForgetReporters = "UPDATE shortage SET who = 'somebody', note = '' WHERE class_id = @id";

    public IReadOnlyList<ClassTrace> Traces(long classId) => database.Read(session => session.List<ClassTrace>(SelectTraces, new { classId }));

    /// <summary>Freezes the figures, takes the cloth that was cut up off the shelf, frees the rest, and forgets people where asked.</summary>
    public Task<Saved> Close(long id, long version, string frozenJson, IReadOnlyList<TakenFromShelf> taken, bool forget) => database.Write(session =>
    {
        if (session.Run(CloseOpen, new { id, version, frozenJson, session.Now }) != 1)
        {
            return Saved.Stale;
        }

        foreach (var piece in taken)
        {
            if (session.Run(TakeSome, piece) == 0)
            {
                session.Run(TakeAll, new { piece.ShelfPieceId, session.Now });
            }
        }

        session.Run(FreeUncut, new { id });
        session.Run(Trace, new { id, session.Now, what = "closed" });
        if (forget)
        {
            Forget(session, id);
        }

        return Saved.Done;
    });

    /// <summary>Forgets the people of a class that is closed, and keeps its figures; false where it is not.</summary>
    public Task<bool> Forget(long id) => database.Write(session =>
    {
        if (session.One<ClassRecord>(ClassStore.SelectOne, new { id }) is not { IsClosed: true })
        {
            return false;
        }

        Forget(session, id);
        return true;
    });

    /// <summary>Opens a closed class; what closing took off the shelf goes back.</summary>
    public Task<Saved> OpenAgain(long id, long version, IReadOnlyList<TakenFromShelf> taken) => database.Write(session =>
    {
        if (session.Run(Reopen, new { id, version }) != 1)
        {
            return Saved.Stale;
        }

        foreach (var piece in taken)
        {
            if (session.Run(PutBackAll, piece) == 0)
            {
                session.Run(PutBackSome, piece);
            }
        }

        session.Run(Trace, new { id, session.Now, what = "opened again" });
        return Saved.Done;
    });

    private static void Forget(Session session, long id)
    {
        session.Run(ForgetStudents, new { id });
        session.Run(ForgetMarkers, new { id });
        session.Run(ForgetReporters, new { id });
        PhotoStore.Forget(session, id);
        session.Run(Trace, new { id, session.Now, what = "names, contacts and notes forgotten" });
    }
}
