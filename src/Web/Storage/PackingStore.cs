using KittingBee.Planning;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Storage;

/// <summary>Stores packing marks: only ever added, once each however often they are sent.</summary>
public sealed class PackingStore(Database database)
{
    private const string Columns = """
        sequence, id, class_id AS ClassId, kit_id AS KitId, line, state, who, marked_at AS MarkedAt, undoes
        """;

    private const string SelectAfter = $"SELECT {Columns} FROM kit_mark WHERE class_id = @classId AND sequence > @sequence ORDER BY sequence";

    private const string SelectWhole = $"SELECT {Columns} FROM kit_mark WHERE class_id = @classId AND line = '{KitMark.WholeKit}' ORDER BY sequence";

    private const string SelectOfKit = $"SELECT {Columns} FROM kit_mark WHERE class_id = @classId AND kit_id = @kitId ORDER BY sequence DESC";

    private const string SelectLatest = $"""
        SELECT {Columns} FROM kit_mark WHERE class_id = @classId AND sequence < @before ORDER BY sequence DESC LIMIT @most
        """;

    private const string SelectOfLine = $"SELECT {Columns} FROM kit_mark WHERE kit_id = @KitId AND line = @Line ORDER BY sequence";

    private const string SelectById = $"SELECT {Columns} FROM kit_mark WHERE id = @id";

    private const string SelectBySequence = $"SELECT {Columns} FROM kit_mark WHERE sequence = @sequence";

    private const string SelectSame = "SELECT id, class_id AS ClassId, mark_id AS MarkId FROM kit_mark_same WHERE id = @id";

    private const string SelectKit = "SELECT c.status FROM kit k JOIN class c ON c.id = k.class_id WHERE k.id = @KitId AND k.class_id = @classId AND c.deleted_at IS NULL";

    private const string Insert = """
        INSERT INTO kit_mark (id, class_id, kit_id, line, state, who, marked_at, undoes)
        VALUES (@Id, @ClassId, @KitId, @Line, @State, @Who, @Now, @Undoes)
        RETURNING sequence
        """;

    private const string InsertSame = "INSERT INTO kit_mark_same (id, class_id, mark_id) VALUES (@id, @classId, @markId)";

    /// <summary>Marks stored after a sequence, oldest first; 0 gives all.</summary>
    public IReadOnlyList<KitMark> MarksAfter(long classId, long sequence) =>
        database.Read(session => session.List<KitMark>(SelectAfter, new { classId, sequence }));

    /// <summary>Marks of whole kits, oldest first: enough to know which are ready.</summary>
    public IReadOnlyList<KitMark> WholeKitMarks(long classId) => database.Read(session => session.List<KitMark>(SelectWhole, new { classId }));

    /// <summary>A kit's marks, newest first.</summary>
    public IReadOnlyList<KitMark> MarksOfKit(long classId, long kitId) =>
        database.Read(session => session.List<KitMark>(SelectOfKit, new { classId, kitId }));

    /// <summary>The class's latest marks before a sequence, newest first.</summary>
    public IReadOnlyList<KitMark> Latest(long classId, long before, int most) =>
        database.Read(session => session.List<KitMark>(SelectLatest, new { classId, before, most }));

    /// <summary>Stores marks of several senders in one transaction, in order; returns once the disk has them all.</summary>
    public Task<IReadOnlyList<MarkReceipt>> Mark(IReadOnlyList<(long ClassId, NewMark Mark)> marks) =>
        database.Write<IReadOnlyList<MarkReceipt>>(session => [.. marks.Select(item => Put(session, item.ClassId, item.Mark))]);

    private static MarkReceipt Put(Session session, long classId, NewMark mark)
    {
        if (session.One<KitMark>(SelectById, new { id = mark.Id }) is { } sent)
        {
            return sent.ClassId == classId ? new(mark.Id, MarkOutcome.Known, sent) : Refused(mark, "A mark of another class has this id.");
        }

        if (session.One<SameMark>(SelectSame, new { id = mark.Id }) is { } same)
        {
            return same.ClassId == classId
                ? new(mark.Id, MarkOutcome.Known, same.MarkId is { } id ? session.One<KitMark>(SelectById, new { id }) : null)
                : Refused(mark, "A mark of another class has this id.");
        }

        return session.One<string>(SelectKit, new { mark.KitId, classId }) switch
        {
            null => Refused(mark, "This kit is not in this class."),
            "closed" => Refused(mark, "The class is closed: open it again on its Settle page to go on packing."),
            _ => mark.IsUndo ? PutUndo(session, classId, mark) : PutState(session, classId, mark),
        };
    }

    private static MarkReceipt PutState(Session session, long classId, NewMark mark)
    {
        if (!KitState.Fits(mark.Line, mark.State))
        {
            return Refused(mark, $"“{mark.State}” is no state of “{mark.Line}”.");
        }

        var line = session.List<KitMark>(SelectOfLine, new { mark.KitId, mark.Line });
        return KitMarks.NotUndone(line).FirstOrDefault(other => other.State == mark.State) is { } standing
            ? Same(session, classId, mark, standing)
            : Stored(session, classId, mark, mark.Line, mark.State, null);
    }

    private static MarkReceipt PutUndo(Session session, long classId, NewMark mark)
    {
        var target = Target(session, mark);
        if (target is null || target.KitId != mark.KitId || target.ClassId != classId)
        {
            return Refused(mark, "The mark to undo is not on this kit.");
        }

        var line = session.List<KitMark>(SelectOfLine, new { mark.KitId, target.Line });
        var standing = KitMarks.NotUndone(line).ToList();
        if (target.Undoes is null)
        {
            return standing.Any(other => other.Id == target.Id)
                ? Stored(session, classId, mark, target.Line, target.State, target.Id)
                : Same(session, classId, mark, null);
        }

        // Taking an undo back puts the mark in force again, unless somebody has marked the same since.
        return standing.FirstOrDefault(other => other.State == target.State) is { } again
            ? Same(session, classId, mark, again)
            : Stored(session, classId, mark, target.Line, target.State, target.Id);
    }

    /// <summary>The mark that an undo means; an id that counted as another mark stands for that one.</summary>
    private static KitMark? Target(Session session, NewMark undo)
    {
        if (undo.UndoesSequence is { } sequence)
        {
            return session.One<KitMark>(SelectBySequence, new { sequence });
        }

        var id = session.One<SameMark>(SelectSame, new { id = undo.Undoes })?.MarkId ?? undo.Undoes;
        return session.One<KitMark>(SelectById, new { id });
    }

    private static MarkReceipt Stored(Session session, long classId, NewMark mark, string line, string state, Guid? undoes)
    {
        var stored = new KitMark
        {
            Id = mark.Id, ClassId = classId, KitId = mark.KitId, Line = line, State = state, Who = mark.Who, MarkedAt = session.Now, Undoes = undoes,
        };
        var sequence = session.Get<long>(Insert, new { stored.Id, stored.ClassId, stored.KitId, stored.Line, stored.State, stored.Who, session.Now, stored.Undoes });
        return new(mark.Id, MarkOutcome.Stored, stored with { Sequence = sequence });
    }

    private static MarkReceipt Same(Session session, long classId, NewMark mark, KitMark? standing)
    {
        session.Run(InsertSame, new { id = mark.Id, classId, markId = standing?.Id });
        return new(mark.Id, MarkOutcome.Known, standing);
    }

    private static MarkReceipt Refused(NewMark mark, Sentence why) => new(mark.Id, MarkOutcome.Refused, null, why);

    private sealed record SameMark
    {
        public Guid Id { get; init; }

        public long ClassId { get; init; }

        public Guid? MarkId { get; init; }
    }
}
