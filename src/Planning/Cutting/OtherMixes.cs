using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>
/// Other mixes of bolt and sheets to set beside the linear program's. The program knows no shop increments: a little less
/// bolt may save a whole increment for one sheet more, and one sheet less may cost no bolt at all.
/// </summary>
internal static class OtherMixes
{
    private const int IncrementsLess = 3;

    /// <summary>Share of the work of a plan that each mix gets.</summary>
    private const double ShareOfWork = 0.3;

    /// <summary>With so few pieces there is time to try every length of bolt in turn, and all of the work for each.</summary>
    private const int FewPieces = 40;
    private const int IncrementsLessForFew = 12;

    /// <summary>Plans of the mixes next to a plan; none where the stock is of one kind.</summary>
    public static IEnumerable<(IReadOnlyList<Strip> Strips, IReadOnlyList<SheetRecipe> Sheets, IReadOnlyList<Surplus> Surplus)> Beside(
        CuttingRequest request, IReadOnlyList<Strip> strips, IReadOnlyList<SheetRecipe> sheets, CancellationToken clock)
    {
        if (request.Stock.Sheets.Count == 0)
        {
            yield break;
        }

        var few = request.Pieces.Sum(piece => (long)piece.Count) <= FewPieces;
        foreach (var stock in Stocks(request.Stock, OneSizePerStrip.LengthOf(strips), sheets, few ? IncrementsLessForFew : IncrementsLess))
        {
            if (clock.IsCancellationRequested)
            {
                yield break;
            }

            var share = few || stock.Sheets.All(sheet => sheet.Available == 0) ? 1 : ShareOfWork;
            var model = CuttingModel.From(request with { Stock = stock, TimeAllowance = request.TimeAllowance * share });
            var tables = model.Grounds.Select(ground => GroundTables.For(model, ground)).ToArray();
            var relaxation = Relaxation.Solve(model, tables, SheetCost.ByGround(model), clock);
            if (relaxation.Missing > 1e-6)
            {
                // Less cloth than this mix needs, even cut in fractions.
                continue;
            }

            if (WholePlan.Find(model, relaxation, _ => -1, clock) is { } whole)
            {
                yield return PlanAssembly.Assemble(model, tables, SmallProof.Settle(model, relaxation, whole, request.Objective, clock)?.Plan ?? whole);
            }

            if (stock.Bolt is null && SheetPacking.Find(model, relaxation, clock) is { } packed)
            {
                yield return PlanAssembly.Assemble(model, tables, packed);
            }
        }
    }

    /// <summary>
    /// The same stock with less of it: less bolt or none, one priced sheet or pack less, no priced sheets. And with the packs of
    /// the plan for nothing, because a sheet of an opened pack costs no more.
    /// </summary>
    private static IEnumerable<CuttingStock> Stocks(CuttingStock stock, Length length, IReadOnlyList<SheetRecipe> sheets, int mostLess)
    {
        var used = sheets.GroupBy(recipe => recipe.Sheet).ToDictionary(kind => kind.Key, kind => kind.Sum(recipe => recipe.Repeat));
        var priced = used.Keys.Where(sheet => stock.Sheets[sheet].Price > 0).Order().ToList();
        foreach (var sheet in priced.Where(sheet => stock.Sheets[sheet].PackSize > 1))
        {
            var pack = stock.Sheets[sheet].PackSize;
            var packs = (used[sheet] + pack - 1) / pack;
            yield return Opened(sheet, packs * pack);
            yield return Opened(sheet, (packs - 1) * pack);
        }

        if (stock.Bolt is null)
        {
            yield break;
        }

        var bought = Buying.BoltLength(stock, length);
        for (var less = 1; less <= mostLess && bought >= stock.Bolt.Increment * less; less++)
        {
            yield return stock with { Bolt = stock.Bolt with { Available = bought - (stock.Bolt.Increment * less) } };
        }

        yield return stock with { Bolt = null };

        foreach (var sheet in priced)
        {
            yield return Limited(index => index == sheet ? used[sheet] - 1 : stock.Sheets[index].Available);
        }

        if (stock.Sheets.Any(sheet => sheet.Price > 0))
        {
            yield return Limited(index => stock.Sheets[index].Price > 0 ? 0 : stock.Sheets[index].Available);
        }

        CuttingStock Limited(Func<int, int?> available) =>
            stock with { Sheets = [.. stock.Sheets.Select((sheet, index) => sheet with { Available = available(index) })] };

        CuttingStock Opened(int opened, int number) => stock with
        {
            Sheets = [.. stock.Sheets.Select((sheet, index) => index == opened
                ? sheet with { Available = Math.Min(number, sheet.Available ?? number), Price = 0 }
                : sheet)],
        };
    }
}
