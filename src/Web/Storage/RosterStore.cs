namespace KittingBee.Web.Storage;

/// <summary>A student on a class's roster.</summary>
public sealed record Student
{
    public long Id { get; init; }

    public long ClassId { get; init; }

    public int Position { get; init; }

    public string Name { get; init; } = "";

    public string Contact { get; init; } = "";

    /// <summary>Null until one is chosen, and when the one chosen was taken away.</summary>
    public long? ColourwayId { get; init; }

    public string Note { get; init; } = "";

    public bool LargePrint { get; init; }

    public bool LeftHanded { get; init; }

    /// <summary>True on the waiting list: no kit is made.</summary>
    public bool Waiting { get; init; }

    public long Version { get; init; }
}

/// <summary>Stores rosters; every change brings the class's kits into line in the same transaction.</summary>
public sealed class RosterStore(Database database)
{
    private const string Columns = """
        s.id, s.class_id AS ClassId, s.position, s.name, s.contact, c.id AS ColourwayId, s.note,
        s.large_print AS LargePrint, s.left_handed AS LeftHanded, s.waiting, s.version
        """;

    private const string From = "FROM student s LEFT JOIN colourway c ON c.id = s.colourway_id AND c.deleted_at IS NULL";

    private const string SelectClass = $"SELECT {Columns} {From} WHERE s.class_id = @classId AND s.deleted_at IS NULL ORDER BY s.position, s.id";

    private const string SelectOne = $"SELECT {Columns} {From} WHERE s.id = @id AND s.class_id = @classId AND s.deleted_at IS NULL";

    private const string Insert = """
        INSERT INTO student (class_id, position, name, contact, colourway_id, note, large_print, left_handed, waiting)
        SELECT @ClassId, coalesce(max(position), 0) + 1, @Name, @Contact, @ColourwayId, @Note, @LargePrint, @LeftHanded, @Waiting
        FROM student WHERE class_id = @ClassId
        RETURNING id
        """;

    private const string Update = """
        UPDATE student SET name = @Name, contact = @Contact, colourway_id = @ColourwayId, note = @Note, large_print = @LargePrint,
          left_handed = @LeftHanded, waiting = @Waiting, version = version + 1
        WHERE id = @Id AND class_id = @ClassId AND version = @Version AND deleted_at IS NULL
        """;

    private const string Delete = "UPDATE student SET deleted_at = @Now, version = version + 1 WHERE id = @id AND class_id = @classId AND deleted_at IS NULL";

    private const string Restore = "UPDATE student SET deleted_at = NULL, version = version + 1 WHERE id = @id AND class_id = @classId";

    private const string Choose = "UPDATE student SET colourway_id = @ColourwayId, version = version + 1 WHERE id = @Id AND class_id = @ClassId AND deleted_at IS NULL";

    public IReadOnlyList<Student> ForClass(long classId) => database.Read(session => session.List<Student>(SelectClass, new { classId }));

    public Student? Find(long classId, long id) => database.Read(session => session.One<Student>(SelectOne, new { id, classId }));

    /// <summary>Adds students at the end of the roster, all or none.</summary>
    public Task<IReadOnlyList<long>> Add(long classId, IReadOnlyList<Student> students) => database.Write<IReadOnlyList<long>>(session =>
    {
        var ids = students.Select(student => session.Get<long>(Insert, student with { ClassId = classId })).ToList();
        KitStore.BringIntoLine(session, classId);
        return ids;
    });

    public Task<Saved> Save(Student student) => database.Write(session =>
    {
        if (session.Run(Update, student) != 1)
        {
            return session.One<Student>(SelectOne, new { id = student.Id, classId = student.ClassId }) is null ? Saved.Gone : Saved.Stale;
        }

        KitStore.BringIntoLine(session, student.ClassId);
        return Saved.Done;
    });

    public Task<bool> Remove(long classId, long id) => Change(classId, session => session.Run(Delete, new { id, classId, session.Now }) == 1);

    public Task<bool> PutBack(long classId, long id) => Change(classId, session => session.Run(Restore, new { id, classId }) == 1);

    /// <summary>Gives each named student a colourway, all in one.</summary>
    public Task<bool> ChooseColourways(long classId, IReadOnlyDictionary<long, long> colourwayOfStudent) => Change(classId, session =>
        colourwayOfStudent.All(choice => session.Run(Choose, new { Id = choice.Key, ClassId = classId, ColourwayId = choice.Value }) == 1));

    internal static IReadOnlyList<Student> ForClass(Session session, long classId) => session.List<Student>(SelectClass, new { classId });

    /// <summary>Gives a class the students of another, each in the copy of its colourway.</summary>
    internal static void Copy(Session session, long fromClass, long toClass, IReadOnlyDictionary<long, long> colourwayCopies)
    {
        foreach (var student in ForClass(session, fromClass))
        {
            session.Get<long>(Insert, student with { ClassId = toClass, ColourwayId = student.ColourwayId is { } way && colourwayCopies.TryGetValue(way, out var copy) ? copy : null });
        }
    }

    private Task<bool> Change(long classId, Func<Session, bool> change) => database.Write(session =>
    {
        var changed = change(session);
        KitStore.BringIntoLine(session, classId);
        return changed;
    });
}
