using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>
/// Puts a class together, from block and roster to cutting plans. The one place that does so: pages, workbook and printed
/// sheets all show what comes out of it.
/// </summary>
public sealed class ClassPlanning(
    ClassStore classes, RosterStore roster, ColourwayStore colourways, KitStore kits, FabricStore fabrics, ShelfStore shelf, SettlingStore settling,
    ShelfClaimStore claims, PlanBook plans, FormatStore formats, FormatBook book)
{
    private static readonly CutList NoCutList = new(Length.Zero, Length.Zero, [], [], []);

    /// <summary>The class as stored, or null where there is none.</summary>
    public ClassMaterials? Materials(long classId)
    {
        if (classes.Find(classId) is not { } record)
        {
            return null;
        }

        var ways = colourways.ForClass(classId);
        var used = ways.SelectMany(way => way.FabricOfLetter.Values).Distinct().ToList();
        return new ClassMaterials(record, roster.ForClass(classId), ways, kits.ForClass(classId), fabrics.Many(used), shelf.ForClass(classId, used))
        {
            Formats = ClassPrecuts.Of(formats.ForClass(classId)),
            Fixed = record.PrintedAt is not null || settling.Purchases(classId).Count > 0 ? FixedClothOf(classId) : new Dictionary<long, FixedCloth>(),
        };
    }

    /// <summary>
    /// Sets aside what the plan takes from the shelf, so that no other class counts on it. Call it before the class is
    /// printed or bought for: from then on its cloth is fixed. Does nothing when that happened before.
    /// </summary>
    public async Task SetAside(long classId)
    {
        if (Materials(classId) is not { Fixed.Count: 0 } materials)
        {
            return;
        }

        // The claims that planning leaves are what the plan takes, even where another class was quicker meanwhile.
        await Plan(materials);
        await shelf.Reserve(classId, claims.OfClass(classId).ToDictionary(claim => claim.ShelfPieceId, claim => claim.Count));
    }

    /// <summary>The class planned, or null where there is none. Plans are taken from the store where nothing changed, else made and stored.</summary>
    public async Task<ClassPlan?> Plan(long classId) => Materials(classId) is { } materials ? await Plan(materials) : null;

    /// <summary>The class planned from what was read already.</summary>
    public Task<ClassPlan> Plan(ClassMaterials materials) => Plan(materials, turns: 3);

    private async Task<ClassPlan> Plan(ClassMaterials materials, int turns)
    {
        var pattern = ClassCutList.Of(materials);
        var (cutList, problems) = (pattern.CutList, pattern.Problems);
        var plan = Assemble(materials, pattern);
        if (cutList is null)
        {
            return plan;
        }

        var (bags, misfits) = book.Bags(materials, cutList);
        plan = plan with { Bags = bags };
        problems =
        [
            .. problems,
            .. misfits.Select(misfit => new Problem("formats", $"{materials.Fabrics[misfit.FabricId].Name} cannot go into the bags as chosen. {misfit.Why} It is planned as cut pieces until you choose another format on the Formats page.")),
        ];
        var (demand, missing) = Demanded(materials, cutList, bags, KitNumbers.Of(plan));
        var planned = await plans.PlanAndKeep(materials.Record.Id, Requests(materials, bags, demand));
        if (!await Claim(materials, planned) && turns > 0 && Materials(materials.Record.Id) is { } anew)
        {
            // Cloth that the class kept to and that is another's now cannot be kept to.
            var lost = planned.Where(item => NotSetAside(materials, item).Any()).Select(item => item.FabricId).ToHashSet();
            return await Plan(anew with { Fixed = anew.Fixed.Where(cloth => !lost.Contains(cloth.Key)).ToDictionary() }, turns - 1);
        }

        return plan with { Fabrics = Fabrics(materials, cutList, planned), Problems = [.. problems, .. missing.Where(problem => problem.Field != "kits" || plan.Kits.Count == 0 || plan.Kits.Any(kit => plan.ColourwayOf(kit) is not null)), .. WithoutColourway(plan)] };
    }

    /// <summary>The same class with other numbers of kits in each colourway: what would be cut and bought. Nothing is stored.</summary>
    public IReadOnlyList<PlannedFabric> PlanFor(ClassMaterials materials, CutList cutList, IReadOnlyDictionary<long, int> kitsOfColourway)
    {
        var requests = RequestsFor(materials, cutList, [kitsOfColourway]);
        return Fabrics(materials, cutList, plans.Plan(requests[0]));
    }

    /// <summary>What would have to be planned for each of other numbers of kits; see <see cref="PlanBook.Plan(IReadOnlyList{FabricRequest})"/>.</summary>
    public IReadOnlyList<IReadOnlyList<FabricRequest>> RequestsFor(ClassMaterials materials, CutList cutList, IEnumerable<IReadOnlyDictionary<long, int>> kitsOfColourway)
    {
        // What a bag holds is the same however many bags there are.
        var (bags, _) = book.Bags(materials, cutList);
        return [.. kitsOfColourway.Select(kits => Requests(materials, bags, Demanded(materials, cutList, bags, kits).Fabrics))];
    }

    /// <summary>
    /// One fabric as it would be planned in another format, everything else as it is; or the reason why it cannot be. Nothing
    /// is stored. This is the way of the class's own plan, so that the figures stay the same once the format is chosen.
    /// </summary>
    public (PlannedFabric? Fabric, IReadOnlyDictionary<long, ColourwayBag> Bags, Sentence? Why) PlanAs(ClassMaterials materials, ClassPlan plan, FormatChoice choice)
    {
        // Pieces and precuts of one fabric say nothing about another's, so the others' formats are left out.
        var alone = materials with { Formats = materials.Formats with { Choices = new Dictionary<long, FormatChoice>() } };
        alone = choice.Format == FormatCodes.CutPieces ? alone : alone with { Formats = alone.Formats.With(choice) };
        var (bags, misfits) = book.Bags(alone, plan.CutList);
        if (misfits is [var misfit, ..])
        {
            return (null, bags, misfit.Why);
        }

        var (demand, _) = Demanded(alone, plan.CutList, bags, KitNumbers.Of(plan));
        var request = Requests(alone, bags, [.. demand.Where(fabric => fabric.Fabric == choice.FabricId)]);
        return Fabrics(alone, plan.CutList, plans.Plan(request)) is [var planned]
            ? (planned, bags, planned.Plan is null ? planned.Problems[0].Said : null)
            : (null, bags, "No kit needs this fabric yet.");
    }

    /// <summary>
    /// Plans a class that was removed and is back: its cloth is free for others since, so it is held again. Gives the names of
    /// the fabrics whose cloth another class has by now, and that are planned anew from what there is.
    /// </summary>
    public async Task<IReadOnlyList<string>> HoldAgain(long classId)
    {
        var before = Materials(classId)?.Fixed ?? new Dictionary<long, FixedCloth>();
        await Plan(classId);
        var after = Materials(classId);
        return
        [
            .. before
                .Where(cloth => after?.Fixed.TryGetValue(cloth.Key, out var now) == true && StoredJson.Write(now.Stock) != StoredJson.Write(cloth.Value.Stock))
                .Select(cloth => after!.Fabrics[cloth.Key].Name),
        ];
    }

    /// <summary>
    /// Holds the cloth that the plans take, so that no other class counts on it: who plans first has it. False where another
    /// class was quicker. Cloth that is set aside for the class already needs no claim, and a closed class holds none.
    /// </summary>
    private async Task<bool> Claim(ClassMaterials materials, IReadOnlyList<FabricResult> planned)
    {
        var wanted = materials.Record.IsClosed
            ? []
            : planned.SelectMany(item => NotSetAside(materials, item)).GroupBy(use => use.Piece).ToDictionary(uses => uses.Key, uses => uses.Sum(use => use.Count));
        var held = claims.OfClass(materials.Record.Id);
        if (held.Count == wanted.Count && held.All(claim => wanted.GetValueOrDefault(claim.ShelfPieceId) == claim.Count))
        {
            return true;
        }

        try
        {
            await claims.Replace(materials.Record.Id, wanted);
            return true;
        }
        catch (ClothTakenException)
        {
            return false;
        }
    }

    // Precuts that are bought are no pieces of the shelf.
    private static IEnumerable<(long Piece, int Count)> NotSetAside(ClassMaterials materials, FabricResult item) => item.Result.Plan is not { } plan || item.ShelfPieceIds.Count == 0
        ? []
        : plan.Sheets
            .Select(sheet => (Piece: materials.ShelfOf(item.FabricId)[sheet.Sheet], sheet.Repeat))
            .Where(use => use.Piece.ReservedClassId != materials.Record.Id)
            .Select(use => (use.Piece.Id, use.Repeat));

    private Dictionary<long, FixedCloth> FixedClothOf(long classId)
    {
        var kept = plans.KeptClothOf(classId);
        var pieces = shelf.Ever([.. kept.Values.SelectMany(cloth => cloth.ShelfPieceIds)]);
        return kept
            .Where(cloth => cloth.Value.ShelfPieceIds.Count == cloth.Value.Stock.Sheets.Count)
            .ToDictionary(cloth => cloth.Key, cloth => new FixedCloth(cloth.Value.Stock, [.. cloth.Value.ShelfPieceIds.Select(id => pieces[id])]));
    }

    private static ClassPlan Assemble(ClassMaterials materials, ClassCutList pattern)
    {
        var students = materials.Students.ToDictionary(student => student.Id);
        return new ClassPlan
        {
            ClassId = materials.Record.Id,
            Title = materials.Record.Title,
            HeldOn = materials.Record.HeldOn,
            HeldTime = materials.Record.HeldTime,
            Place = materials.Record.Place,
            BlockName = materials.Record.BlockName,
            Habits = materials.Habits,
            Rules = materials.Rules,
            Block = pattern.Block,
            Project = pattern.Project,
            CutList = pattern.CutList ?? NoCutList,
            Colourways = [.. materials.Colourways.Select(way => new PlannedColourway(way.Id, way.Name, way.FabricOfLetter))],
            Fabrics = [],
            Kits = [.. materials.Kits.Select(kit => Planned(kit, kit.StudentId is { } id ? students.GetValueOrDefault(id) : null))],
            Problems = pattern.Problems,
        };
    }

    private static PlannedKit Planned(Kit kit, Student? student) => kit.Role switch
    {
        "student" => new(kit.Id, kit.Number, kit.Code, KitRole.Student, student?.Name ?? kit.For, kit.ColourwayId, student?.Note ?? "", student?.LargePrint ?? false, student?.LeftHanded ?? false),
        "spare" => new(kit.Id, kit.Number, kit.Code, KitRole.Spare, Say("Spare kit"), kit.ColourwayId),
        "sample" => new(kit.Id, kit.Number, kit.Code, KitRole.Sample, Say("Teacher’s sample"), kit.ColourwayId),
        _ => new(kit.Id, kit.Number, kit.Code, KitRole.Open, Say("Kit to claim"), kit.ColourwayId),
    };

    private static (IReadOnlyList<FabricDemand> Fabrics, IReadOnlyList<Problem> Problems) Demanded(
        ClassMaterials materials, CutList cutList, IReadOnlyDictionary<long, ColourwayBag> bags, IReadOnlyDictionary<long, int> kitsOfColourway)
    {
        var lines = materials.Colourways
            .Select(way => new ColourwayKits(way.Name, way.FabricOfLetter, kitsOfColourway.GetValueOrDefault(way.Id), bags[way.Id].List))
            .ToList();
        var result = Demand.For(cutList, lines, materials.Spares, materials.Habits.Style);
        return (result.Fabrics, result.Problems);
    }

    private static List<FabricRequest> Requests(ClassMaterials materials, IReadOnlyDictionary<long, ColourwayBag> bags, IReadOnlyList<FabricDemand> demand) =>
        [.. demand.Where(fabric => fabric.Pieces.Count > 0).Select(fabric =>
        {
            var format = bags.Values.Select(bag => bag.HandedOut.GetValueOrDefault(fabric.Fabric)?.Format).FirstOrDefault(format => format is not null);
            return format is not null && materials.Formats.ChoiceOf(fabric.Fabric).IsBought
                ? new FabricRequest(fabric.Fabric, materials.RequestOfPrecuts(fabric.Fabric, fabric.Pieces, format), [], format, IsBought: true)
                : new FabricRequest(fabric.Fabric, materials.Request(fabric.Fabric, fabric.Pieces), [.. materials.ShelfOf(fabric.Fabric).Select(piece => piece.Id)], format);
        })];

    private static IReadOnlyList<PlannedFabric> Fabrics(ClassMaterials materials, CutList cutList, IReadOnlyList<FabricResult> planned)
    {
        var letters = cutList.Fabrics.Select(fabric => fabric.Letter).ToList();
        return [.. planned.Select(item =>
        {
            var fabric = materials.Fabrics[item.FabricId];
            return new PlannedFabric
            {
                FabricId = fabric.Id,
                Name = fabric.Name,
                Colour = fabric.Colour,
                Letters = [.. letters.Where(letter => materials.Colourways.Any(way => way.FabricOfLetter.GetValueOrDefault(letter) == fabric.Id))],
                SupplierNote = fabric.SupplierNote,
                Request = item.Request,
                Format = item.Format ?? FormatCodes.CutPieces,
                IsBought = item.IsBought,
                Plan = item.Result.Plan,
                Problems = item.Result.Problems,
            };
        }).OrderBy(fabric => fabric.Letters is [var first, ..] ? letters.IndexOf(first) : letters.Count).ThenBy(fabric => fabric.FabricId)];
    }

    private static IEnumerable<Problem> WithoutColourway(ClassPlan plan)
    {
        var without = plan.Kits.Where(kit => plan.ColourwayOf(kit) is null).ToList();
        if (without.Count > 0)
        {
            var who = Sentence.Join(", ", without.Take(5).Select(kit => (Sentence)$"{kit.Name} (kit {kit.Number})"));
            who = without.Count > 5 ? $"{who} and others" : who;
            yield return new Problem("colourways", without.Count == 1
                ? (Sentence)$"{without.Count} of {plan.Kits.Count} kits has no colourway and is not in the plan: {who}. Choose one on the roster, or spread the students on the Fabrics page."
                : $"{without.Count} of {plan.Kits.Count} kits have no colourway and are not in the plan: {who}. Choose one on the roster, or spread the students on the Fabrics page.");
        }
    }
}
