using System.Security.Cryptography;

namespace KittingBee.Web.Storage;

/// <summary>A bag: a student's, one still open to claim, a spare, or the teacher's sample.</summary>
public sealed record Kit
{
    public long Id { get; init; }

    public long ClassId { get; init; }

    /// <summary>On the bag; never changes once anything is printed or packed.</summary>
    public int Number { get; init; }

    /// <summary>Short code for typing where a QR code cannot be read.</summary>
    public string Code { get; init; } = "";

    /// <summary><c>student</c>, <c>open</c>, <c>spare</c> or <c>sample</c>.</summary>
    public string Role { get; init; } = "student";

    public long? StudentId { get; init; }

    public string? StudentName { get; init; }

    /// <summary>The student's colourway, or the kit's own; null when none is chosen.</summary>
    public long? ColourwayId { get; init; }

    /// <summary>Who or what the bag is for.</summary>
    public string For => StudentName ?? Role switch { "spare" => "Spare", "sample" => "Teacher's sample", _ => "To be claimed" };
}

/// <summary>Stores kits. They follow from the roster and the class's numbers; only the colourway of a kit without a student is chosen.</summary>
public sealed class KitStore(Database database)
{
    // No vowels and no look-alikes, so that a code is no word and is read right the first time.
    private const string CodeLetters = "23456789BCDFGHJKMNPQRSTVWXZ";

    private const string Select = """
        SELECT k.id, k.class_id AS ClassId, k.number, k.code, k.role, k.student_id AS StudentId, s.name AS StudentName, c.id AS ColourwayId
        FROM kit k
        LEFT JOIN student s ON s.id = k.student_id
        LEFT JOIN colourway c ON c.id = coalesce(s.colourway_id, k.colourway_id) AND c.deleted_at IS NULL
        """;

    private const string SelectClass = $"{Select} WHERE k.class_id = @classId AND k.deleted_at IS NULL ORDER BY k.number";

    private const string SelectCode = $"{Select} WHERE k.code = @code AND k.deleted_at IS NULL";

    private const string RemoveUnseated = """
        UPDATE kit SET deleted_at = @Now
        WHERE class_id = @classId AND role = 'student' AND deleted_at IS NULL
          AND (@kitsOnly = 1 OR student_id IN (SELECT id FROM student WHERE class_id = @classId AND (deleted_at IS NOT NULL OR waiting = 1)))
        """;

    private const string ReviveSeated = """
        UPDATE kit SET deleted_at = NULL
        WHERE class_id = @classId AND role = 'student' AND deleted_at IS NOT NULL
          AND student_id IN (SELECT id FROM student WHERE class_id = @classId AND deleted_at IS NULL AND waiting = 0)
        """;

    private const string SelectWithoutKit = """
        SELECT id FROM student
        WHERE class_id = @classId AND deleted_at IS NULL AND waiting = 0 AND id NOT IN (SELECT student_id FROM kit WHERE student_id IS NOT NULL)
        ORDER BY position, id
        """;

    private const string Insert = """
        INSERT INTO kit (class_id, number, code, role, student_id)
        SELECT @classId, coalesce(max(number), 0) + 1, @code, @role, @studentId FROM kit WHERE class_id = @classId
        """;

    // A kit made without a roster, one that was put aside with its class's number too; in the student's colourway where one is chosen.
    private const string Claim = """
        UPDATE kit SET role = 'student', student_id = @studentId, deleted_at = NULL
        WHERE id = (
          SELECT k.id FROM kit k JOIN student s ON s.id = @studentId
          WHERE k.class_id = @classId AND k.role = 'open' AND (s.colourway_id IS NULL OR k.colourway_id = s.colourway_id)
          ORDER BY k.deleted_at IS NOT NULL, k.number LIMIT 1)
        """;

    private const string CountRole = "SELECT count(*) FROM kit WHERE class_id = @classId AND role = @role AND deleted_at IS NULL";

    private const string ReviveOne = """
        UPDATE kit SET deleted_at = NULL
        WHERE id = (SELECT id FROM kit WHERE class_id = @classId AND role = @role AND deleted_at IS NOT NULL ORDER BY number LIMIT 1)
        """;

    private const string RemoveLast = """
        UPDATE kit SET deleted_at = @Now
        WHERE id = (SELECT id FROM kit WHERE class_id = @classId AND role = @role AND deleted_at IS NULL ORDER BY number DESC LIMIT 1)
        """;

    private const string SelectUncoloured = """
        SELECT k.id FROM kit k LEFT JOIN colourway c ON c.id = k.colourway_id AND c.deleted_at IS NULL
        WHERE k.class_id = @classId AND k.role <> 'student' AND k.deleted_at IS NULL AND c.id IS NULL ORDER BY k.number
        """;

    private const string SelectLeastUsed = """
        SELECT c.id FROM colourway c
        LEFT JOIN kit k ON k.colourway_id = c.id AND k.deleted_at IS NULL
        WHERE c.class_id = @classId AND c.deleted_at IS NULL GROUP BY c.id ORDER BY count(k.id), c.id LIMIT 1
        """;

    // Two steps, because numbers are unique all the way; none is ever this high.
    private const string MakeRoom = $"UPDATE kit SET number = number + 1000000 WHERE class_id = @classId AND {NothingOnPaper}";

    private const string Renumber = $"""
        UPDATE kit SET number = ordered.number
        FROM (
          SELECT k.id, row_number() OVER (ORDER BY k.deleted_at IS NOT NULL,
            CASE k.role WHEN 'student' THEN 1 WHEN 'open' THEN 2 WHEN 'spare' THEN 3 ELSE 4 END, s.position, k.id) AS number
          FROM kit k LEFT JOIN student s ON s.id = k.student_id WHERE k.class_id = @classId) AS ordered
        WHERE kit.id = ordered.id AND {NothingOnPaper}
        """;

    private const string NothingOnPaper = """
        NOT EXISTS (SELECT 1 FROM kit_mark WHERE class_id = @classId) AND NOT EXISTS (SELECT 1 FROM class WHERE id = @classId AND printed_at IS NOT NULL)
        """;

    private const string SetColourway = "UPDATE kit SET colourway_id = @colourwayId WHERE id = @id AND class_id = @classId AND role <> 'student'";

    public IReadOnlyList<Kit> ForClass(long classId) => database.Read(session => ForClass(session, classId));

    /// <summary>The kit with a short code, however it was typed.</summary>
    public Kit? FindByCode(string code) =>
        database.Read(session => session.One<Kit>(SelectCode, new { code = code.Trim().ToUpperInvariant() }));

    public Task<bool> ChooseColourway(long classId, long id, long colourwayId) =>
        database.Write(session => session.Run(SetColourway, new { id, classId, colourwayId }) == 1);

    internal static IReadOnlyList<Kit> ForClass(Session session, long classId) => session.List<Kit>(SelectClass, new { classId });

    /// <summary>
    /// Makes the class's kits what its roster and numbers call for. Until something is printed or packed they are numbered
    /// students first; from then on a number stays. A kit that is no longer needed is put aside with its marks and comes back.
    /// Where a class that had only a number of kits gets a roster, its students claim those kits, with number, code and marks.
    /// </summary>
    internal static void BringIntoLine(Session session, long classId)
    {
        var record = session.One<ClassRecord>(ClassStore.SelectOne, new { id = classId });
        if (record is null)
        {
            return;
        }

        var kitsOnly = record.KitsOnly is not null;
        session.Run(RemoveUnseated, new { classId, kitsOnly, session.Now });
        if (!kitsOnly)
        {
            session.Run(ReviveSeated, new { classId });
            foreach (var studentId in session.List<long>(SelectWithoutKit, new { classId }))
            {
                if (session.Run(Claim, new { classId, studentId }) == 0)
                {
                    session.Run(Insert, new { classId, code = NewCode(), role = "student", studentId });
                }
            }
        }

        BringCountIntoLine(session, classId, "open", record.KitsOnly ?? 0);
        BringCountIntoLine(session, classId, "spare", record.SpareKits);
        BringCountIntoLine(session, classId, "sample", record.SampleKits);
        session.Run(MakeRoom, new { classId });
        session.Run(Renumber, new { classId });
        foreach (var id in session.List<long>(SelectUncoloured, new { classId }))
        {
            if (session.One<long?>(SelectLeastUsed, new { classId }) is { } colourwayId)
            {
                session.Run(SetColourway, new { id, classId, colourwayId });
            }
        }
    }

    /// <summary>Gives a class's own kits (spares, samples, kits to claim) the colourways that they have in another.</summary>
    internal static void CopyColourways(Session session, long fromClass, long toClass, IReadOnlyDictionary<long, long> colourwayCopies)
    {
        var copies = ForClass(session, toClass).ToLookup(kit => kit.Role);
        foreach (var role in ForClass(session, fromClass).Where(kit => kit.Role != "student").GroupBy(kit => kit.Role))
        {
            foreach (var (kit, copy) in role.Zip(copies[role.Key]))
            {
                if (kit.ColourwayId is { } way && colourwayCopies.TryGetValue(way, out var colourwayId))
                {
                    session.Run(SetColourway, new { id = copy.Id, classId = toClass, colourwayId });
                }
            }
        }
    }

    private static void BringCountIntoLine(Session session, long classId, string role, int wanted)
    {
        var have = session.Get<int>(CountRole, new { classId, role });
        for (; have < wanted; have++)
        {
            if (session.Run(ReviveOne, new { classId, role }) == 0)
            {
                session.Run(Insert, new { classId, code = NewCode(), role, studentId = (long?)null });
            }
        }

        for (; have > wanted; have--)
        {
            session.Run(RemoveLast, new { classId, role, session.Now });
        }
    }

    internal static string NewCode() => RandomNumberGenerator.GetString(CodeLetters, 6);
}
