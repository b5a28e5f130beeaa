namespace KittingBee.Web.Glossary;

/// <summary>Words that mean something particular in this program, in the reader's language.</summary>
public static class OwnTerms
{
    public static IReadOnlyList<Term> All() =>
    [
        new("kit", Say("Kit"), Say("All the fabric that one student needs, cut and bagged."), TermSketches.Kit(Say("A kit"))),
        new("kit-format", Say("Kit format"), Say("How one fabric goes into the bag: as cut pieces, as precuts, or as a length to cut at home."), TermSketches.KitFormat(Say("Pieces, strips and a length"))),
        new("recipe", Say("Recipe"), Say("One way to sub-cut a strip or a sheet: what comes out of it, from left to right."), TermDrawings.Recipe(Say("A recipe for a strip"))),
        new("floor", Say("Floor"), Say("The length below which no plan of this kind can go. The nearer a plan is to it, the less there is to gain."), TermSketches.Floor(Say("A plan and its floor"), Say("floor"))),
        new("ticket", Say("Ticket"), Say("The cutting sheet of one fabric, worked through at the table from top to bottom."), TermSketches.Ticket(Say("A ticket"))),
        new("headroom", Say("Headroom"), Say("How many more kits can be cut from the fabric that is already bought."), TermSketches.Headroom(Say("Room for two more kits"))),
        new("shelf", Say("Shelf"), Say("The fabric on hand: bolts, lengths and remnants. Plans use it before anything is bought."), TermSketches.Shelf(Say("A shelf"))),
        new("settle", Say("Settle"), Say("To square what was bought, planned and left over of each fabric after the class."), TermSketches.Settle(Say("Bought, used and left"), Say("bought"), Say("used"), Say("left over"))),
        new("job-line", Say("Job line"), Say("The row of stages on a class’s pages, from Roster to Settle. Each has stitches, which fill in as the stage is done."), TermDrawings.Stitches(Say("stitches of a stage"))),
        new("spare-kit", Say("Spare kit, spare pieces"), Say("Kits and pieces cut beyond what the students need, for what gets lost or miscut.")),
    ];
}
