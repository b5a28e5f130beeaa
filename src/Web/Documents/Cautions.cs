namespace KittingBee.Web.Documents;

/// <summary>The usual cautions, in our own words. The makers' instructions come before them.</summary>
public static class Cautions
{
    /// <summary>Before cutting.</summary>
    public static string RotaryCutter => Say(
        "The blade is very sharp. Close it every time you put it down. Cut away from yourself, on a cutting mat, with your fingers well back from the ruler’s edge. "
        + "Keep it from children. What the cutter’s maker says comes first.");

    /// <summary>Before pressing.</summary>
    public static string Iron => Say(
        "The iron and its steam burn. Stand it on its heel, touch only the handle, keep the cord out of the way and unplug it when you are done. "
        + "Never press on the cutting mat. What the iron’s and the fabric’s makers say comes first.");

    /// <summary>Before sewing.</summary>
    public static string Needle => Say(
        "Keep fingers clear of the machine’s needle, take pins out before they reach it, and switch the machine off before you change the needle or the foot. "
        + "What the machine’s maker says comes first.");
}
