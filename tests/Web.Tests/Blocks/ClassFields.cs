namespace KittingBee.Web.Tests.Blocks;

/// <summary>The form of a new class, as the page offers it.</summary>
internal static class ClassFields
{
    /// <summary>All but the block and the number of blocks in a kit.</summary>
    public static (string Name, string Value)[] Usual =>
    [
        ("Form.Title", "Evening class"), ("Form.Units", "inches"), ("Form.Paper", "letter"), ("Form.Currency", "USD"), ("Form.SeamAllowance", "1/4"),
        ("Form.CuttingStep", "1/8"), ("Form.Layers", "4"), ("Form.LongestStrip", "24"), ("Form.SquaringUp", "0"), ("Form.SpareKits", "0"),
        ("Form.SampleKits", "1"), ("Form.KitsOnly", "3"), ("Form.SparePercent", "0"), ("Form.PromisePercent", "95"),
    ];
}
