namespace KittingBee.Web.Showing;

/// <summary>The stages of the job line as people read them.</summary>
public static class StageText
{
    /// <summary>A stage's name; a page that belongs to no stage has none.</summary>
    public static string Title(string stage) => stage switch
    {
        "Roster" => Say("Roster"),
        "Fabrics" => Say("Fabrics"),
        "Cut" => Say("Cut"),
        "Price" => Say("Price"),
        "Print" => Say("Print"),
        "Pack" => Say("Pack"),
        "Settle" => Say("Settle"),
        _ => stage,
    };
}
