namespace KittingBee.Web.Sharing;

/// <summary>Whether the guild is shared now. Every start begins alone, so that closing the program always ends the sharing.</summary>
public sealed class SharingState
{
    /// <summary>True while others are let in and everybody signs in.</summary>
    public bool IsShared { get; internal set; }

    /// <summary>True where the start asked to share and there is no password yet: the first page asks for one, and nobody else is let in.</summary>
    public bool WaitsForPassword { get; internal set; }
}
