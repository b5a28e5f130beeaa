using System.Globalization;
using System.Text.RegularExpressions;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>What one line gives: a piece, only a fabric heading, nothing (a blank line), or an error.</summary>
internal sealed record TypedPiece(MadePiece? Piece, Sentence? Understood, Sentence? Error);

/// <summary>
/// Reads one line: an optional fabric, a count, one or two sizes, and words. The size is found first, as the pattern
/// "number with fraction and unit, perhaps × another" that follows the count; every word that is not of the trade's few is taken
/// as the fabric's name.
/// </summary>
internal sealed partial class TypedLineReader(TypedFabrics fabrics, CuttingRules rules, LengthUnit unit)
{
    private const int MostPieces = 10_000;

    private const string Number = @"(?:\d+(?:[.,]\d+)?(?:[ -]\d+\s*[/⁄]\s*\d+|\s*[¼½¾⅐-⅞])?|[¼½¾⅐-⅞])(?:\s*[/⁄]\s*\d+)?";
    private const string Unit = @"\s*(?:""|″|”|''|in(?:ch(?:es)?|\.)?(?![a-z])|cm(?![a-z])|mm(?![a-z])|yds?(?![a-z])|yards?(?![a-z])|m(?![a-z]))?";
    private const string Size = Number + Unit;
    private const string WholeWidth = @"(?:wof|width of (?:the )?fabric)\b";

    public TypedPiece Read(string line)
    {
        var text = Spaces().Replace(line, " ").Trim().TrimStart('•', '*', '·').Trim();
        if (text.Length == 0)
        {
            return new(null, null, null);
        }

        if (!AnyDigit().IsMatch(text))
        {
            return Heading(text);
        }

        if (Negative().Match(text) is { Success: true } negative)
        {
            return Fault($"\"{line.Trim()}\" has \"{negative.Value.Trim()}\", a number below 0. Type it without the minus sign, or with a space after the dash.");
        }

        var (fabric, rest) = Labelled(text);
        var count = Count().Match(rest);
        if (!count.Success)
        {
            return Fault($"\"{line.Trim()}\" does not say how many. Start with the number of pieces, such as \"4 squares 4 1/2\".");
        }

        if (!int.TryParse(count.Groups["count"].ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture, out var pieces) || pieces is 0 or > MostPieces)
        {
            return Fault($"\"{line.Trim()}\" asks for {count.Groups["count"].Value} pieces; it must be 1 to {MostPieces}.");
        }

        var before = rest[..count.Index];
        rest = rest[(count.Index + count.Length)..];
        var size = Sizes().Match(rest);
        if (size.Success && MoreNumbers().Match(rest[(size.Index + size.Length)..]) is { Success: true } more)
        {
            return Fault($"\"{line.Trim()}\" goes on with \"{more.Value.Trim()}\" after its size. Give each size a line of its own.");
        }

        return size.Success
            ? Piece(line.Trim(), fabric, pieces, size, $"{before} {rest[..size.Index]} {rest[(size.Index + size.Length)..]}")
            : Fault($"\"{line.Trim()}\" has no size after the number of pieces. Give it, such as \"4 squares 4 1/2\" or \"2 @ 2 x 14 1/2\".");
    }

    private static TypedPiece Fault(Sentence error) => new(null, null, error);

    private TypedPiece Heading(string text)
    {
        var name = FabricWord().Replace(text.TrimEnd(':'), "").Trim();
        if (name.Length == 0 || fabrics.LetterOf(name) is not { } letter)
        {
            return Fault($"\"{text}\" names no fabric. Type a letter or a name, or a line such as \"A 4 squares 4 1/2\".");
        }

        fabrics.Current = letter;
        return new(null, $"Fabric {fabrics.InWords(letter)}:", null);
    }

    /// <summary>A fabric named before a colon, or a capital letter at the start.</summary>
    private static (string? Fabric, string Remainder) Labelled(string text)
    {
        var colon = text.IndexOf(':', StringComparison.Ordinal);
        if (colon > 0 && !AnyDigit().IsMatch(text[..colon]))
        {
            return (FabricWord().Replace(text[..colon], "").Trim(), text[(colon + 1)..].Trim());
        }

        var letter = LeadingLetter().Match(text);
        return letter.Success ? (letter.Groups["letter"].Value, text[letter.Length..]) : (null, text);
    }

    private TypedPiece Piece(string line, string? fabric, int count, Match size, string words)
    {
        var lower = words.ToLowerInvariant();
        var isStrip = StripWord().IsMatch(lower);
        var isSquare = SquareWord().IsMatch(lower);
        if (Side(size.Groups["first"].Value) is not { } first || Side(size.Groups["second"].Value) is not { } second)
        {
            return Fault($"\"{line}\": {LengthText.Read(Bare(size.Groups["first"].Value), unit).Why ?? LengthText.Read(Bare(size.Groups["second"].Value), unit).Why}");
        }

        if (!first.IsPositive || (size.Groups["second"].Success && !second.IsPositive))
        {
            return Fault($"\"{line}\" has a size of 0. Every side must be longer than 0.");
        }

        if (!size.Groups["second"].Success)
        {
            second = isStrip ? rules.UsableWidth : first;
        }
        else if (isSquare && first != second)
        {
            return Fault($"\"{line}\" asks for squares with two different sides. Give one size, or leave out \"squares\".");
        }

        if (Length.Max(first, second) > BlockLimits.Side * 2)
        {
            return Fault($"\"{line}\" asks for a piece longer than {Blocks.Sizes.Text(BlockLimits.Side * 2, rules)}. Check the size and its unit.");
        }

        var name = fabric ?? FabricIn(words);
        var letter = name.Length > 0 ? fabrics.LetterOf(name) : fabrics.Current;
        if (letter is null)
        {
            return Fault(name.Length > 0
                ? (Sentence)$"\"{line}\" names a 27th fabric; a list has at most 26."
                : $"\"{line}\" does not say which fabric. Start with a letter, such as \"A {line}\".");
        }

        var use = CutTwice().IsMatch(lower) ? (Sentence)"cut twice corner to corner" : CutOnce().IsMatch(lower) ? (Sentence)"cut once corner to corner" : null;
        var (height, width) = first <= second ? (first, second) : (second, first);
        var (tall, wide) = (Blocks.Sizes.Text(height, rules), Blocks.Sizes.Text(width, rules));
        var what = (height == width, isStrip, count) switch
        {
            (true, _, 1) => (Sentence)$"{count} square {tall} of {fabrics.InWords(letter)}",
            (true, _, _) => $"{count} squares {tall} of {fabrics.InWords(letter)}",
            (_, true, 1) => $"{count} strip {tall} × {wide} of {fabrics.InWords(letter)}",
            (_, true, _) => $"{count} strips {tall} × {wide} of {fabrics.InWords(letter)}",
            (_, _, 1) => $"{count} piece {tall} × {wide} of {fabrics.InWords(letter)}",
            _ => $"{count} pieces {tall} × {wide} of {fabrics.InWords(letter)}",
        };
        return new(new(letter, width, height, count, use ?? "typed list", isStrip), use is null ? what : Sentence.Join(", ", [what, use]), null);
    }

    private Length? Side(string text) =>
        text.Length == 0 ? Length.Zero
        : Regex.IsMatch(text, WholeWidth, RegexOptions.IgnoreCase | RegexOptions.NonBacktracking) ? rules.UsableWidth
        : LengthText.Read(Bare(text), unit) is { IsLength: true } reading ? reading.Value : null;

    private static string Bare(string text) => text.Trim().TrimEnd('.').Replace("''", "\"", StringComparison.Ordinal).Replace('”', '"');

    private static string FabricIn(string words) =>
        Spaces().Replace(Marks().Replace(KnownWord().Replace(words, " "), " "), " ").Trim();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();

    [GeneratedRegex(@"[\d¼½¾⅐-⅞]")]
    private static partial Regex AnyDigit();

    [GeneratedRegex(@"\b(?:fabric|colour|color|from|of)\b", RegexOptions.IgnoreCase)]
    private static partial Regex FabricWord();

    [GeneratedRegex(@"^(?:fabric\s+)?(?<letter>[A-Z])(?:\s*[-–.)=,]\s*|\s+)(?=\(?\d|cut\b)")]
    private static partial Regex LeadingLetter();

    /// <summary>
    /// A minus sign: it clings to its number and stands alone on the left. Between two numbers (<c>3-1/2</c>), with a space after it
    /// (<c>A - 4</c>) or straight after a fabric's letter (<c>A-4</c>) a dash is only a dash.
    /// </summary>
    [GeneratedRegex(@"(?<=^|[\s:,(@×*=])[-–−][\d¼½¾⅐-⅞][^\s,;]*")]
    private static partial Regex Negative();

    /// <summary>The first number, when it is whole and neither a fraction nor a unit follows it; then it would be a size.</summary>
    [GeneratedRegex(@"(?<=^\D*)\(?(?<count>\d+)\)?(?!\d|\s*[/⁄]|[.,]\d|\s*[¼½¾⅐-⅞]|[ -]\d+\s*[/⁄]|\s*(?:""|″|”|''|(?:in|inch|inches|cm|mm|m|yds?|yards?)\b))\s*(?:@|×|x(?=[\s\d])|\*|–|—|-|:|,)?", RegexOptions.IgnoreCase)]
    private static partial Regex Count();

    [GeneratedRegex("(?<first>" + Size + @")(?:\s*(?:x|×|by|\*)\s*(?<second>" + Size + "|" + WholeWidth + "))?", RegexOptions.IgnoreCase)]
    private static partial Regex Sizes();

    /// <summary>A second size or count after the first size; left unread, its pieces would be missing from every bag.</summary>
    [GeneratedRegex(@"^\s*[\d¼½¾⅐-⅞].*|(?:[,;&+]|\band\b|\bplus\b)\s*\(?[\d¼½¾⅐-⅞].*|^\s*(?:x|×|by|\*)\s*[\d¼½¾⅐-⅞].*", RegexOptions.IgnoreCase)]
    private static partial Regex MoreNumbers();

    [GeneratedRegex(@"\bstrips?\b")]
    private static partial Regex StripWord();

    [GeneratedRegex(@"\bsq(?:uare|r)?s?\b")]
    private static partial Regex SquareWord();

    [GeneratedRegex(@"\bcut (?:once|in half)\b|\bonce\b|\bhst\b")]
    private static partial Regex CutOnce();

    [GeneratedRegex(@"\btwice\b|\bqst\b")]
    private static partial Regex CutTwice();

    [GeneratedRegex(@"\b(?:sq(?:uare|r)?s?|strips?|rect(?:angle)?s?|pieces?|pcs?|patch(?:es)?|cut|once|twice|in half|corner to corner|diagonally|of|from|the|each|fabric|colou?r|wide|long|at|wof|width|hst|qst|and|into|triangles?)\b", RegexOptions.IgnoreCase)]
    private static partial Regex KnownWord();

    [GeneratedRegex(@"[@×*:;,.()\[\]–—""″-]+")]
    private static partial Regex Marks();
}
