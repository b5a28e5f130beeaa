using KittingBee.Planning.Measures;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>One stage on the job line.</summary>
/// <param name="Name">Roster, Fabrics, Cut, Price, Print, Pack or Settle.</param>
/// <param name="Address">Last part of the page's address.</param>
/// <param name="Says">What is done or next, in a few words.</param>
/// <param name="Stitches">0 to 9 filled.</param>
/// <param name="Next">A full sentence when something is to do here, else null.</param>
/// <param name="Wrong">True when the stage cannot go on without a person.</param>
public sealed record JobStage(string Name, string Address, string Says, int Stitches, string? Next = null, bool Wrong = false);

/// <summary>Says of each stage of a class what is done, what is next and what is wrong.</summary>
public static class JobLine
{
    public static IReadOnlyList<JobStage> Of(
        ClassMaterials materials, ClassPlan plan, IReadOnlyList<KitMark> marks, IReadOnlyList<FabricPurchase> purchases, IReadOnlyList<Leftover> leftovers)
    {
        var ready = KitMarks.Ready(KitMarks.Standing(marks), plan.Kits.Select(kit => kit.KitId));
        return [Roster(materials, plan), Fabrics(plan), Cut(plan, purchases), Price(materials.Record, plan), Print(materials.Record, plan), Pack(plan, ready), Settle(materials, plan, purchases, leftovers)];
    }

    private static JobStage Roster(ClassMaterials materials, ClassPlan plan)
    {
        if (materials.Record.KitsOnly is { } kits)
        {
            return new("Roster", "roster", Say($"{kits} kits to claim"), 9);
        }

        var seated = materials.Students.Count(student => !student.Waiting);
        var waiting = materials.Students.Count - seated;
        var says = materials.Record.Places is { } places ? Say($"{seated} of {places} places") : Many(seated, "student");
        return seated == 0
            ? new("Roster", "roster", Say("nobody yet"), 0, Say("Put the students on the roster: type them, or paste the list."))
            : materials.Record.Places < seated
                ? new("Roster", "roster", says, 9, Say($"{seated} students, but only {materials.Record.Places} places: move some to the waiting list, or change the places."), true)
                : new("Roster", "roster", waiting > 0 ? Say($"{says}, {waiting} waiting") : says, 9);
    }

    private static JobStage Fabrics(ClassPlan plan)
    {
        if (plan.Colourways.Count == 0)
        {
            return new("Fabrics", "fabrics/new", Say("no colourway yet"), 0, Say("Choose a fabric from the shelf for each letter of the block."));
        }

        return plan.Problems is [var problem, ..]
            ? new("Fabrics", "fabrics", Say("something is missing"), 4, Say(problem.Said), true)
            : new("Fabrics", "fabrics", Many(plan.Colourways.Count, "colourway"), 9);
    }

    private static JobStage Cut(ClassPlan plan, IReadOnlyList<FabricPurchase> purchases)
    {
        if (plan.Fabrics.Count == 0)
        {
            return new("Cut", "cut", Say("nothing to cut yet"), 0);
        }

        var stuck = plan.Fabrics.FirstOrDefault(fabric => fabric.Plan is null);
        if (stuck is not null)
        {
            return new("Cut", "cut", Say($"{stuck.Name} does not fit"), 4, stuck.Problems is [var why, ..] ? Say(why.Said) : Say($"{stuck.Name} has no cutting plan."), true);
        }

        if (plan.Fabrics.Select(fabric => (fabric.Name, Short: BoughtCloth.Of(fabric, purchases).ShortWords(plan.Habits))).FirstOrDefault(fabric => fabric.Short is not null) is { Short: { } words } wanting)
        {
            return new("Cut", "cut", Say($"too little {wanting.Name}"), 6, Say($"{wanting.Name}: {words}. Buy more, or make fewer kits."), true);
        }

        var bought = Sum(plan.Fabrics.Select(fabric => fabric.Plan!.Buy.Length));
        var saved = Sum(plan.Fabrics.Select(fabric => fabric.Plan!.OneSizePerStrip.Length)) - bought;
        var says = plan.Habits.ShowYardage(bought);
        return new("Cut", "cut", saved.IsPositive ? Say($"{says}, saves {plan.Habits.ShowYardage(saved)}") : says, 9);
    }

    private static JobStage Price(ClassRecord record, ClassPlan plan)
    {
        if (record is { Fee: 0m, FixedCosts: 0m, LabourPerHour: 0m, Notions: 0m, Packaging: 0m })
        {
            return new("Price", "price", Say("costs to enter"), 3, Say("Enter what else a kit costs, and the class’s fee."));
        }

        return ClassPricing.Of(record, plan).Price is { } price
            ? new("Price", "price", Say($"{MoneyText.Write(price.WithTax, record.Currency)} a kit"), 9)
            : new("Price", "price", Say("costs entered"), 9);
    }

    private static JobStage Print(ClassRecord record, ClassPlan plan) => record.PrintedAt is not null
        ? new("Print", "print", Say("printed"), 9)
        : plan.Kits.Count == 0
            ? new("Print", "print", Say("handouts, labels"), 0)
            : new("Print", "print", Say("handouts to print"), 0, Printing(plan));

    private static string Printing(ClassPlan plan)
    {
        var handouts = plan.Kits.Count(kit => kit.Role == KitRole.Student);
        var labels = Many(plan.Kits.Count, "bag label");
        return handouts == 0 ? Say($"Print {labels}.") : Say($"Print {Many(handouts, "handout")} and {labels}.");
    }

    private static JobStage Pack(ClassPlan plan, int ready) => plan.Kits.Count == 0
        ? new("Pack", "pack", Say("no kits yet"), 0)
        : new("Pack", "pack", Say($"{ready} of {plan.Kits.Count} ready"), ready * 9 / plan.Kits.Count, ready < plan.Kits.Count ? Say($"Pack {Many(plan.Kits.Count - ready, "kit")}.") : null);

    private static JobStage Settle(ClassMaterials materials, ClassPlan plan, IReadOnlyList<FabricPurchase> purchases, IReadOnlyList<Leftover> leftovers)
    {
        if (materials.Record.IsClosed)
        {
            return new("Settle", "settle", Say("settled"), 9);
        }

        var measured = leftovers.Select(left => left.FabricId).Distinct().Count();
        return purchases.Count == 0
            ? new("Settle", "settle", Say("after the class"), 0)
            : new("Settle", "settle", Say($"{measured} of {plan.Fabrics.Count} fabrics measured"), plan.Fabrics.Count == 0 ? 0 : Math.Min(8, measured * 9 / plan.Fabrics.Count), Say("Measure what is left of each fabric, and close the class."));
    }

    private static Length Sum(IEnumerable<Length> lengths) => lengths.Aggregate(Length.Zero, (sum, length) => sum + length);
}
