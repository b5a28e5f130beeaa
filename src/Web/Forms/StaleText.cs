namespace KittingBee.Web.Forms;

/// <summary>What to say when somebody else saved in the meantime.</summary>
public static class StaleText
{
    /// <param name="now">How it is stored now, in words.</param>
    public static string For(string? now) =>
        $"Somebody saved this while you were editing, and nothing of yours is stored yet. Now stored: {now}. What you typed is still here: send it again to replace that, or leave the page to keep it.";
}
