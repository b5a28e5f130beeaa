namespace KittingBee.Planning.Cutting;

/// <summary>Says that the cloth to be had is not enough.</summary>
internal static class Shortage
{
    public static Problem Of(CuttingModel model, bool isProved)
    {
        var stock = model.Request.Stock;
        var have = stock.Sheets.Select(sheet => $"{(sheet.Available is { } number ? number : "any number of")} of “{sheet.Name}”").ToList();
        if (stock.Bolt is { } bolt)
        {
            have.Insert(0, bolt.Available is { } available ? $"{available} of the bolt" : "the bolt");
        }

        var proof = isProved ? "cannot be cut" : "could not be cut by any plan found";
        return new Problem("stock", $"The {model.Sizes.Sum(size => (long)size.Demand)} pieces {proof} from the cloth to be had ({string.Join(", ", have)}): add cloth or make fewer kits.");
    }
}
