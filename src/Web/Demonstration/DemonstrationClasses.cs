using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Demonstration;

/// <summary>Loads the demonstration's classes: roster, colourways, and for a finished one what was bought and handed over.</summary>
public sealed class DemonstrationClasses(
    ClassStore classes, ColourwayStore colourways, RosterStore roster, PackingStore packing, SettlingStore settling, ClassPlanning planning)
{
    public async Task Load(ClassSeed seed, StoredBlock block, IReadOnlyDictionary<string, Fabric> fabricOf)
    {
        var title = seed.Details.Title ?? "class";
        var record = DemonstrationGuild.Take(title, reader => Priced(reader, seed.Details.Read(reader, new ClassRecord(), block), seed.Prices));
        var id = await classes.Add(record);
        foreach (var way in seed.Colourways)
        {
            await colourways.Add(new Colourway
            {
                ClassId = id,
                Name = way.Name,
                FabricOfLetter = way.Fabrics.ToDictionary(pair => pair.Key, pair => fabricOf[pair.Value].Id),
            });
        }

        if (seed.Roster.Count > 0)
        {
            var reading = RosterLines.Read(string.Join('\n', seed.Roster), colourways.ForClass(id), [], duplicatesMeant: false);
            DemonstrationGuild.Expect($"roster of {title}", reading.Problems);
            await roster.Add(id, reading.Students);
        }

        await Finish(id, seed, fabricOf);
    }

    private async Task Finish(long id, ClassSeed seed, IReadOnlyDictionary<string, Fabric> fabricOf)
    {
        if (seed.Printed)
        {
            await planning.SetAside(id);
            await classes.MarkPrinted(id);
        }

        foreach (var bought in seed.Purchases)
        {
            await settling.AddPurchase(DemonstrationGuild.Take($"purchase of {bought.Fabric}", reader => new FabricPurchase
            {
                ClassId = id,
                FabricId = fabricOf[bought.Fabric].Id,
                Length = reader.Yardage("Length", bought.Length, "The length"),
                Paid = reader.Money("Paid", bought.Paid, "The price paid"),
            }));
        }

        if (seed.HandedOver && await planning.Plan(id) is { } plan)
        {
            foreach (var kit in plan.Kits)
            {
                var lines = plan.LinesOf(kit).Select(line => Mark(kit.KitId, line.Key, KitState.Bagged));
                NewMark[] marks = [.. lines, Mark(kit.KitId, KitMark.WholeKit, KitState.Checked), Mark(kit.KitId, KitMark.WholeKit, KitState.HandedOver)];
                await packing.Mark([.. marks.Select(mark => (id, mark))]);
            }
        }

        foreach (var left in seed.Leftovers)
        {
            await settling.AddLeftover(DemonstrationGuild.Take($"leftover of {left.Fabric}", reader => new Leftover
            {
                ClassId = id,
                FabricId = fabricOf[left.Fabric].Id,
                Width = reader.Size("Width", left.Width, "The width"),
                Length = reader.Size("Length", left.Length, "The length"),
                ToShelf = left.ToShelf,
            }));
        }
    }

    private static ClassRecord Priced(FormReader reader, ClassRecord record, PriceSeed prices) => record with
    {
        Notions = reader.Money("Notions", prices.Notions, "Notions"),
        Packaging = reader.Money("Packaging", prices.Packaging, "Packaging"),
        LabourPerHour = reader.Money("LabourPerHour", prices.LabourPerHour, "Labour"),
        FixedCosts = reader.Money("FixedCosts", prices.FixedCosts, "Fixed costs"),
        Fee = reader.Money("Fee", prices.Fee, "The fee"),
        TaxPercent = reader.Percent("TaxPercent", prices.TaxPercent, "Sales tax"),
        MarginPercent = reader.Percent("MarginPercent", prices.MarginPercent, "The margin"),
    };

    private static NewMark Mark(long kitId, string line, string state) => new(Guid.NewGuid(), kitId, line, state, "Demonstration");
}
