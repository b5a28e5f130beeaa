using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Cutting;

/// <summary>Reads a cutting request for everything that makes it impossible or meaningless, before any planning.</summary>
public static class RequestProblems
{
    /// <summary>The most lines of pieces in one request.</summary>
    public const int MostLines = 500;

    /// <summary>The most pieces of one line.</summary>
    public const int MostPieces = 10_000_000;

    /// <summary>The most pieces of all lines together.</summary>
    public const int MostPiecesInAll = 100_000_000;

    private static readonly Length Longest = Length.FromYards(1_000);

    /// <summary>Every problem found; empty for a request that can be planned.</summary>
    public static IReadOnlyList<Problem> In(CuttingRequest request)
    {
        var problems = new List<Problem>();
        StockProblems(request.Stock, problems);
        if (request.Layers is < 1 or > 20)
        {
            problems.Add(new("layers", $"{request.Layers} layers cannot be cut in one stroke: enter 1 to 20, and no more than the cutter's maker allows."));
        }

        if (!Usable(request.LongestStrip))
        {
            problems.Add(new("longestStrip", $"The longest strip is {request.LongestStrip}: enter the length of your longest ruler, above zero."));
        }

        if (request.TimeAllowance <= TimeSpan.Zero || request.TimeAllowance > TimeSpan.FromSeconds(30))
        {
            problems.Add(new("timeAllowance", $"The time allowance is {request.TimeAllowance.TotalSeconds:0.###} s: enter more than 0 and at most 30 seconds."));
        }

        if (request.Pieces.Count is 0 or > MostLines)
        {
            problems.Add(new("pieces", request.Pieces.Count == 0
                ? (Sentence)"There are no pieces: enter at least one."
                : $"There are {request.Pieces.Count} lines of pieces: at most {MostLines} can be planned together, so split them."));
        }

        if (request.Pieces.Sum(piece => (long)piece.Count) is > MostPiecesInAll and var all)
        {
            problems.Add(new("pieces", $"There are {all} pieces in all: at most {MostPiecesInAll} can be planned together, so split them."));
        }

        for (var index = 0; index < request.Pieces.Count && index < MostLines; index++)
        {
            PieceProblems(request, index, problems, stockIsSound: !problems.Any(problem => problem.Field.StartsWith("stock", StringComparison.Ordinal)));
        }

        return problems;
    }

    private static void StockProblems(CuttingStock stock, List<Problem> problems)
    {
        if (stock.Bolt is null && stock.Sheets.Count == 0)
        {
            problems.Add(new("stock", "There is no cloth to cut from: enter a bolt or at least one sheet."));
        }

        Share(stock.ShrinkageAlong, "stock.shrinkageAlong", problems);
        Share(stock.ShrinkageAcross, "stock.shrinkageAcross", problems);
        if (stock.SquaringUp < Length.Zero || stock.SquaringUp > Longest)
        {
            problems.Add(new("stock.squaringUp", $"The squaring-up allowance is {stock.SquaringUp}: enter zero or more."));
        }

        if (stock.Bolt is { } bolt)
        {
            Size(bolt.UsableWidth, "stock.bolt.usableWidth", "The bolt's usable width", problems);
            Size(bolt.Increment, "stock.bolt.increment", "The shop's increment", problems);
            if (bolt.Minimum < Length.Zero || bolt.Minimum > Longest)
            {
                problems.Add(new("stock.bolt.minimum", $"The least length the shop cuts is {bolt.Minimum}: enter zero or more."));
            }

            if (bolt.Available is { } available && available < Length.Zero)
            {
                problems.Add(new("stock.bolt.available", $"The length to be had is {available}: enter zero or more, or leave it out."));
            }

            Price(bolt.PricePerYard, "stock.bolt.pricePerYard", problems);
        }

        for (var index = 0; index < stock.Sheets.Count; index++)
        {
            var (sheet, field) = (stock.Sheets[index], $"stock.sheets[{index}]");
            Size(sheet.Width, field + ".width", $"The width of “{sheet.Name}”", problems);
            Size(sheet.Length, field + ".length", $"The length of “{sheet.Name}”", problems);
            if (sheet.Available is < 0)
            {
                problems.Add(new(field + ".available", $"There are {sheet.Available} of “{sheet.Name}”: enter zero or more, or leave it out."));
            }

            if (sheet.PackSize is < 1 or > 100_000)
            {
                problems.Add(new(field + ".packSize", $"A pack of {sheet.PackSize} “{sheet.Name}”: enter 1 to 100,000."));
            }

            Price(sheet.Price, field + ".price", problems);
        }
    }

    private static void PieceProblems(CuttingRequest request, int index, List<Problem> problems, bool stockIsSound)
    {
        var (piece, field) = (request.Pieces[index], $"pieces[{index}]");
        if (piece.Count is < 1 or > MostPieces)
        {
            problems.Add(new(field + ".count", $"{piece.Count} of “{piece.Name}”: enter 1 to {MostPieces}."));
        }

        var sized = Size(piece.Width, field + ".width", $"The width of “{piece.Name}”", problems)
            & Size(piece.Height, field + ".height", $"The height of “{piece.Name}”", problems);
        if (!sized || !stockIsSound || Fits(request, piece))
        {
            return;
        }

        var mayTurn = piece.MayTurn && !request.Directional;
        problems.Add(new(field + ".width", mayTurn
            ? (Sentence)$"“{piece.Name}”, {piece.Width} × {piece.Height}, fits no cloth either way: join it from narrower pieces or add wider cloth."
            : $"“{piece.Name}”, {piece.Width} × {piece.Height}, fits no cloth without being turned: join it from narrower pieces or add wider cloth."));
    }

    private static bool Fits(CuttingRequest request, CutPiece piece)
    {
        var stock = request.Stock;
        return Lies(piece.Width, piece.Height) || (piece.MayTurn && !request.Directional && Lies(piece.Height, piece.Width));

        bool Lies(Length across, Length along) =>
            (stock.Bolt is not null && across <= Buying.BoltWidth(stock))
            || stock.Sheets.Any(sheet => across <= Buying.SheetWidth(stock, sheet) && along <= Buying.SheetLength(stock, sheet));
    }

    private static bool Usable(Length length) => length.IsPositive && length <= Longest;

    private static bool Size(Length length, string field, Sentence what, List<Problem> problems)
    {
        if (Usable(length))
        {
            return true;
        }

        problems.Add(new(field, $"{what} is {length}: enter more than 0 and at most 1,000 yd."));
        return false;
    }

    private static void Share(decimal share, string field, List<Problem> problems)
    {
        if (share is < 0m or > 0.5m)
        {
            problems.Add(new(field, $"Shrinkage of {share * 100m:0.##} %: enter 0 to 50 %."));
        }
    }

    private static void Price(decimal price, string field, List<Problem> problems)
    {
        if (price is < 0m or > 1_000_000m)
        {
            problems.Add(new(field, $"A price of {price}: enter zero to 1,000,000."));
        }
    }
}
