namespace KittingBee.Web.Storage;

/// <summary>A checked cutting plan of one fabric of a class, with the request that it answers.</summary>
public sealed record StoredPlan
{
    public long ClassId { get; init; }

    public long FabricId { get; init; }

    /// <summary>Of the request: another hash means that the class changed since.</summary>
    public string InputsHash { get; init; } = "";

    public string RequestJson { get; init; } = "";

    public string PlanJson { get; init; } = "";

    /// <summary>JSON list of the shelf pieces that the request's sheets are.</summary>
    public string ShelfPieceIds { get; init; } = "[]";

    public string PlannedAt { get; init; } = "";
}

/// <summary>Stores cutting plans, one for each fabric of a class.</summary>
public sealed class PlanStore(Database database)
{
    private const string Select = """
        SELECT class_id AS ClassId, fabric_id AS FabricId, inputs_hash AS InputsHash, request_json AS RequestJson, plan_json AS PlanJson, shelf_piece_ids AS ShelfPieceIds, planned_at AS PlannedAt
        FROM plan WHERE class_id = @classId
        """;

    private const string Upsert = """
        INSERT INTO plan (class_id, fabric_id, inputs_hash, request_json, plan_json, shelf_piece_ids, planned_at)
        VALUES (@ClassId, @FabricId, @InputsHash, @RequestJson, @PlanJson, @ShelfPieceIds, @Now)
        ON CONFLICT (class_id, fabric_id) DO UPDATE SET inputs_hash = excluded.inputs_hash, request_json = excluded.request_json,
          plan_json = excluded.plan_json, shelf_piece_ids = excluded.shelf_piece_ids, planned_at = excluded.planned_at
        """;

    public IReadOnlyDictionary<long, StoredPlan> ForClass(long classId) =>
        database.Read(session => session.List<StoredPlan>(Select, new { classId })).ToDictionary(plan => plan.FabricId);

    public Task<int> Put(IReadOnlyList<StoredPlan> plans) => database.Write(session => plans.Sum(plan => session.Run(Upsert, new
    {
        plan.ClassId, plan.FabricId, plan.InputsHash, plan.RequestJson, plan.PlanJson, plan.ShelfPieceIds, session.Now,
    })));
}
