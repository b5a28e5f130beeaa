using KittingBee.Planning;

namespace KittingBee.Web.Storage;

/// <summary>A mark on a kit, as stored: a line cut or bagged, the whole kit checked or handed over, or the undoing of one of these.</summary>
public sealed record KitMark
{
    /// <summary>Order in which marks were stored; a device that was away asks for those after the last it saw.</summary>
    public long Sequence { get; init; }

    /// <summary>Made by the device, so that a mark sent twice counts once.</summary>
    public Guid Id { get; init; }

    public long ClassId { get; init; }

    public long KitId { get; init; }

    /// <summary>The key of a kit's line, or <see cref="WholeKit"/>.</summary>
    public string Line { get; init; } = WholeKit;

    /// <summary>One of <see cref="KitState"/>; an undo bears the state that it takes back.</summary>
    public string State { get; init; } = "";

    public string Who { get; init; } = "";

    public string MarkedAt { get; init; } = "";

    /// <summary>The mark that this one takes back, or null.</summary>
    public Guid? Undoes { get; init; }

    public const string WholeKit = "kit";
}

/// <summary>The states that marks give. To cut is the absence of marks.</summary>
public static class KitState
{
    /// <summary>A line's pieces are cut.</summary>
    public const string Cut = "cut";

    /// <summary>A line's pieces are in the bag; they are cut, whether or not that was marked.</summary>
    public const string Bagged = "bagged";

    /// <summary>Somebody looked the whole bag over.</summary>
    public const string Checked = "checked";

    /// <summary>The student has it.</summary>
    public const string HandedOver = "handed-over";

    /// <summary>True where a state is one that the line can have.</summary>
    public static bool Fits(string line, string state) =>
        line == KitMark.WholeKit ? state is Checked or HandedOver : state is Cut or Bagged;

    /// <summary>How far along a state is: the furthest standing mark is what a line shows.</summary>
    public static int Rank(string state) => state is Bagged or HandedOver ? 2 : 1;

    /// <summary>In words; a line without a mark is to cut.</summary>
    public static string Words(string state) => state switch
    {
        Cut => Say("cut"),
        Bagged => Say("bagged"),
        Checked => Say("checked"),
        HandedOver => Say("handed over"),
        _ => Say("to cut"),
    };
}

/// <summary>A mark as a device sends it.</summary>
/// <param name="Id">Made by the device; the same when it is sent again.</param>
/// <param name="KitId">The kit.</param>
/// <param name="Line">Its line, or <see cref="KitMark.WholeKit"/>.</param>
/// <param name="State">The state; ignored for an undo.</param>
/// <param name="Who">Who made it.</param>
/// <param name="Undoes">The id of the mark to take back, or null.</param>
/// <param name="UndoesSequence">The same by its sequence, or null.</param>
public sealed record NewMark(Guid Id, long KitId, string Line, string State, string Who, Guid? Undoes = null, long? UndoesSequence = null)
{
    public bool IsUndo => Undoes is not null || UndoesSequence is not null;
}

/// <summary>What came of a mark.</summary>
public enum MarkOutcome
{
    /// <summary>It is on the disk, new.</summary>
    Stored,

    /// <summary>It was sent before, or says what another mark said already.</summary>
    Known,

    /// <summary>It cannot be: nothing is stored.</summary>
    Refused,
}

/// <summary>The answer to one mark.</summary>
/// <param name="Id">The device's id.</param>
/// <param name="Outcome">What came of it.</param>
/// <param name="Mark">The stored mark that it is or counts as; null where it counts for nothing.</param>
/// <param name="Why">Why it was refused.</param>
public sealed record MarkReceipt(Guid Id, MarkOutcome Outcome, KitMark? Mark, Sentence? Why = null);
