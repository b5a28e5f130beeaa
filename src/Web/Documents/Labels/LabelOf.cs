using System.Globalization;
using KittingBee.Web.Classes;

namespace KittingBee.Web.Documents.Labels;

/// <summary>The label of a class's kit.</summary>
public static class LabelOf
{
    /// <param name="plan">The class.</param>
    /// <param name="kit">One of its kits.</param>
    /// <param name="address">The whole address that its code leads to.</param>
    public static Label Kit(ClassPlan plan, PlannedKit kit, string address)
    {
        var colourway = plan.ColourwayOf(kit);
        var fabrics = plan.FabricsOf(colourway);
        return new Label(
            kit.Number.ToString(CultureInfo.InvariantCulture),
            kit.Name,
            kit.Code,
            colourway?.Name,
            [.. plan.CutList.Fabrics.Where(list => fabrics.ContainsKey(list.Letter)).Select(list => new LabelFabric(list.Letter, fabrics[list.Letter].Name, fabrics[list.Letter].Colour))],
            plan.Title,
            address);
    }
}
