using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>
/// Puts a class together, from block and roster to cutting plans. The one place that does so: pages, workbook and printed
/// sheets all show what comes out of it.
/// </summary>
public sealed class ClassPlanning(
    ClassStore classes, RosterStore roster, ColourwayStore colourways, KitStore kits, FabricStore fabrics, ShelfStore shelf, SettlingStore settling,
    ShelfClaimStore claims, PlanBook plans)
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

        var (demand, missing) = Demanded(materials, cutList, KitNumbers.Of(plan));
        var planned = await plans.PlanAndKeep(materials.Record.Id, Requests(materials, demand));
        if (!await Claim(materials, planned) && turns > 0 && Materials(materials.Record.Id) is { } anew)
        {
            return await Plan(anew, turns - 1);
        }

        return plan with { Fabrics = Fabrics(materials, cutList, planned), Problems = [.. problems, .. missing.Where(problem => problem.Field != "kits" || plan.Kits.Count == 0 || plan.Kits.Any(kit => plan.ColourwayOf(kit) is not null)), .. WithoutColourway(plan)] };
    }

    /// <summary>The same class with other numbers of kits in each colourway: what would be cut and bought. Nothing is stored.</summary>
    public IReadOnlyList<PlannedFabric> PlanFor(ClassMaterials materials, CutList cutList, IReadOnlyDictionary<long, int> kitsOfColourway)
    {
        var (demand, _) = Demanded(materials, cutList, kitsOfColourway);
        return Fabrics(materials, cutList, plans.Plan(Requests(materials, demand)));
    }

    /// <summary>
    /// Holds the cloth that the plans take, so that no other class counts on it: who plans first has it. False where another
    /// class was quicker. Cloth that is fixed is set aside already, and a closed class holds none.
    /// </summary>
    private async Task<bool> Claim(ClassMaterials materials, IReadOnlyList<FabricResult> planned)
    {
        var wanted = materials.Fixed.Count > 0 || materials.Record.IsClosed
            ? []
            : planned
                .Where(item => item.Result.Plan is not null)
                .SelectMany(item => item.Result.Plan!.Sheets.Select(sheet => (Piece: materials.ShelfOf(item.FabricId)[sheet.Sheet].Id, sheet.Repeat)))
                .GroupBy(use => use.Piece)
                .ToDictionary(uses => uses.Key, uses => uses.Sum(use => use.Repeat));
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
        "spare" => new(kit.Id, kit.Number, kit.Code, KitRole.Spare, "Spare kit", kit.ColourwayId),
        "sample" => new(kit.Id, kit.Number, kit.Code, KitRole.Sample, "Teacher’s sample", kit.ColourwayId),
        _ => new(kit.Id, kit.Number, kit.Code, KitRole.Open, "Kit to claim", kit.ColourwayId),
    };

    private static (IReadOnlyList<FabricDemand> Fabrics, IReadOnlyList<Problem> Problems) Demanded(
        ClassMaterials materials, CutList cutList, IReadOnlyDictionary<long, int> kitsOfColourway)
    {
        var lines = materials.Colourways
            .Select(way => new ColourwayKits(way.Name, way.FabricOfLetter, kitsOfColourway.GetValueOrDefault(way.Id)))
            .ToList();
        var result = Demand.For(cutList, lines, materials.Spares, materials.Habits.Style);
        return (result.Fabrics, result.Problems);
    }

    private static List<FabricRequest> Requests(ClassMaterials materials, IReadOnlyList<FabricDemand> demand) =>
        [.. demand.Where(fabric => fabric.Pieces.Count > 0)
            .Select(fabric => new FabricRequest(fabric.Fabric, materials.Request(fabric.Fabric, fabric.Pieces), [.. materials.ShelfOf(fabric.Fabric).Select(piece => piece.Id)]))];

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
            var who = string.Join(", ", without.Take(5).Select(kit => $"{kit.Name} (kit {kit.Number})")) + (without.Count > 5 ? " and others" : "");
            yield return new Problem("colourways", $"{without.Count} of {plan.Kits.Count} kits {(without.Count == 1 ? "has no colourway and is" : "have no colourway and are")} not in the plan: {who}. Choose one on the roster, or spread the students on the Fabrics page.");
        }
    }
}
