namespace KittingBee.Planning.Cutting;

/// <summary>Says that the cloth to be had is not enough.</summary>
internal static class Shortage
{
    public static Problem Of(CuttingModel model, bool isProved)
    {
        var stock = model.Request.Stock;
        var have = stock.Sheets.Select(sheet => sheet.Available is { } number ? (Sentence)$"{number} of “{sheet.Name}”" : $"any number of “{sheet.Name}”").ToList();
        if (stock.Bolt is { } bolt)
        {
            have.Insert(0, bolt.Available is { } available ? $"{available} of the bolt" : (Sentence)"the bolt");
        }

        var pieces = model.Sizes.Sum(size => (long)size.Demand);
        return new Problem("stock", isProved
            ? (Sentence)$"The {pieces} pieces cannot be cut from the cloth to be had ({Sentence.Join(", ", have)}): add cloth or make fewer kits."
            : $"The {pieces} pieces could not be cut by any plan found from the cloth to be had ({Sentence.Join(", ", have)}): add cloth or make fewer kits.");
    }
}
