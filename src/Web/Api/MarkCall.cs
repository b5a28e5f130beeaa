namespace KittingBee.Web.Api;

/// <summary>Marks from one device, in the order in which they were made.</summary>
public sealed record MarksCall
{
    /// <summary>At most 1,000.</summary>
    public required IReadOnlyList<MarkCall> Marks { get; init; }
}

/// <summary>One mark.</summary>
public sealed record MarkCall
{
    /// <summary>Made by the device, and the same when the mark is sent again.</summary>
    public required Guid Id { get; init; }

    /// <summary>The kit.</summary>
    public required long Kit { get; init; }

    /// <summary>Its line, or kit for the whole of it; left out for an undo.</summary>
    public string Line { get; init; } = "";

    /// <summary>cut or bagged for a line, checked or handed-over for the whole kit; left out for an undo.</summary>
    public string State { get; init; } = "";

    /// <summary>Who made it.</summary>
    public string Who { get; init; } = "";

    /// <summary>Id of the mark to take back.</summary>
    public Guid? Undoes { get; init; }

    /// <summary>Sequence of the mark to take back, where its id is not known.</summary>
    public long? UndoesSequence { get; init; }
}
