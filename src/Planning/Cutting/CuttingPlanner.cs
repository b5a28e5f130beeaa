namespace KittingBee.Planning.Cutting;

/// <summary>The one door to cutting plans: reads the request for problems, plans it, compares, and has the plan checked.</summary>
public static class CuttingPlanner
{
    /// <summary>Plans one fabric. Bad input comes back as problems, never as an exception.</summary>
    public static CuttingResult Plan(CuttingRequest request) => throw new NotImplementedException();
}
