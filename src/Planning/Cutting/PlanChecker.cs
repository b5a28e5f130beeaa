namespace KittingBee.Planning.Cutting;

/// <summary>Proves a plan from the request alone, sharing no code with the solver.</summary>
public static class PlanChecker
{
    /// <summary>Every way in which the plan breaks the request; empty for a valid plan.</summary>
    public static IReadOnlyList<string> Check(CuttingRequest request, CuttingPlan plan) => throw new NotImplementedException();
}
