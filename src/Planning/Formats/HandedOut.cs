using KittingBee.Planning.Classes;
using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Formats;

/// <summary>What a kit gets of one fabric in place of the cut pieces, and how its student cuts the pieces from it.</summary>
public sealed record HandedOut
{
    /// <summary>Code of the kit format.</summary>
    public required string Format { get; init; }

    /// <summary>One of it in words: "2½ in strip"; "length" for yardage.</summary>
    public required Sentence Name { get; init; }

    /// <summary>Size across, as it lies in the bag.</summary>
    public required Length Width { get; init; }

    /// <summary>Size along the selvage, as it lies in the bag.</summary>
    public required Length Height { get; init; }

    /// <summary>How many of it a kit gets.</summary>
    public required int Count { get; init; }

    /// <summary>What of it can be cut from: less than <see cref="Width"/> where edges are pinked.</summary>
    public required SheetStock Usable { get; init; }

    /// <summary>What the student cuts.</summary>
    public required IReadOnlyList<CutPiece> Pieces { get; init; }

    /// <summary>Recipes for strips, squares and quarters; strips of a length come as the strips of one sheet.</summary>
    public required IReadOnlyList<SheetRecipe> Recipes { get; init; }

    /// <summary>Strokes of the cutter left to the student.</summary>
    public required int StudentCuts { get; init; }

    /// <summary>
    /// One format of a request, for one kit; or the reason why it cannot be. Cut pieces are no such format: nothing is left to
    /// cut. The kits, prices and packs of the request do not matter here.
    /// </summary>
    /// <exception cref="ArgumentException">Cut pieces were asked for.</exception>
    public static (HandedOut? Out, Sentence? Why) Of(FormatRequest request, string format)
    {
        if (format == FormatCodes.CutPieces)
        {
            throw new ArgumentException("Cut pieces are not handed out uncut.", nameof(format));
        }

        var result = KitFormats.Compare(request with { Kits = 1, Formats = [format] });
        return result.Problems is [var problem, ..] ? (null, problem.Said) : Of(request, result.Formats.Single());
    }

    /// <summary>An option of the comparison, read as what goes into the bag; or the reason why it cannot.</summary>
    public static (HandedOut? Out, Sentence? Why) Of(FormatRequest request, FormatOption option)
    {
        if (!option.Feasible)
        {
            return (null, option.Why);
        }

        if (option.LengthPerKit is { } length)
        {
            var width = request.Bolt.UsableWidth;
            return (new()
            {
                Format = option.Format,
                Name = "length",
                Width = width,
                Height = length,
                Count = 1,
                Usable = new("length", width, length, null, 0m),
                Pieces = request.Pieces,
                Recipes = [new SheetRecipe(0, "length", 1, false, option.Strips)],
                StudentCuts = option.StudentCuts ?? 0,
            }, null);
        }

        var precut = request.Precuts.First(precut => precut.Format == option.Format);
        return (new()
        {
            Format = option.Format,
            Name = precut.Name,
            Width = precut.Width,
            Height = precut.Length,
            Count = option.PerKit ?? 0,
            Usable = new(precut.Name, precut.UsableWidth, precut.UsableLength, null, 0m),
            Pieces = request.Pieces,
            Recipes = option.Sheets,
            StudentCuts = option.StudentCuts ?? 0,
        }, null);
    }

    /// <summary>One of it in words, with its size: "2½″ strip, 40″ long", "5″ square", "fat quarter, 18″ × 21″".</summary>
    public Sentence InWords(LengthStyle style)
    {
        var (width, height) = (LengthText.Write(Width, style), LengthText.Write(Height, style));
        return Format == FormatCodes.Yardage ? (Sentence)$"length of {height}, {width} wide"
            : Width == Height ? Name
            : Width >= 4 * Height ? (Sentence)$"{Name}, {width} long"
            : $"{Name}, {height} × {width}";
    }

    /// <summary>The pieces in words: "2 of 4½″ square, 8 of 2½″ × 4½″".</summary>
    public Sentence PiecesInWords(LengthStyle style) =>
        Sentence.Join(", ", Pieces.Select(piece => (Sentence)$"{piece.Count:0} of {PieceNames.SizeInWords(piece.Width, piece.Height, style)}"));
}
