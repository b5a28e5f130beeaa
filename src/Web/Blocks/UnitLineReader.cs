using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Blocks;

/// <summary>Reads one line that says what a unit is; see <see cref="UnitLines"/>.</summary>
internal sealed partial class UnitLineReader(string line, LengthUnit unit)
{
    private static readonly Dictionary<string, UnitKind> Words = new(StringComparer.OrdinalIgnoreCase)
    {
        ["plain"] = UnitKind.Plain, ["patch"] = UnitKind.Plain,
        ["half-square-triangle"] = UnitKind.HalfSquareTriangle, ["half-square triangle"] = UnitKind.HalfSquareTriangle,
        ["half square triangle"] = UnitKind.HalfSquareTriangle, ["hst"] = UnitKind.HalfSquareTriangle,
        ["quarter-square-triangle"] = UnitKind.QuarterSquareTriangle, ["quarter-square triangle"] = UnitKind.QuarterSquareTriangle,
        ["quarter square triangle"] = UnitKind.QuarterSquareTriangle, ["qst"] = UnitKind.QuarterSquareTriangle,
        ["flying-geese"] = UnitKind.FlyingGeese, ["flying geese"] = UnitKind.FlyingGeese, ["geese"] = UnitKind.FlyingGeese,
        ["flipped-corners"] = UnitKind.FlippedCorners, ["flipped corners"] = UnitKind.FlippedCorners, ["corners"] = UnitKind.FlippedCorners,
        ["square-in-a-square"] = UnitKind.SquareInASquare, ["square in a square"] = UnitKind.SquareInASquare,
        ["rails"] = UnitKind.Rails, ["rail"] = UnitKind.Rails,
        ["checkerboard"] = UnitKind.Checkerboard, ["four-patch"] = UnitKind.Checkerboard, ["nine-patch"] = UnitKind.Checkerboard,
        ["block"] = UnitKind.Block,
        ["template"] = UnitKind.Template,
        ["pieced-triangle"] = UnitKind.PiecedTriangle, ["pieced triangle"] = UnitKind.PiecedTriangle,
    };

    /// <summary>What is wrong, after <see cref="Read"/> gave null.</summary>
    public Sentence Error { get; private set; } = Sentence.Empty;

    public JsonObject? Read()
    {
        var place = Place().Match(line);
        if (!place.Success)
        {
            return Wrong("it must begin with row and column, such as 1,2 or 1-2,3.");
        }

        var result = new JsonObject();
        if (!AddSpan(result, "row", place.Groups["row"], place.Groups["rowEnd"]) || !AddSpan(result, "column", place.Groups["column"], place.Groups["columnEnd"]))
        {
            return null;
        }

        var rest = line[place.Length..].Trim();
        var word = Words.Keys.Where(word => StartsWithWord(rest, word)).OrderByDescending(word => word.Length).FirstOrDefault();
        if (word is null)
        {
            return Wrong($"no kind of unit was found after the place. The kinds are {string.Join(", ", UnitKinds.Names)}.");
        }

        var kind = Words[word];
        result["kind"] = UnitKinds.Name(kind);
        rest = rest[word.Length..].Trim().TrimStart(':').Trim();
        var inner = rest.IndexOf('{', StringComparison.Ordinal);
        if (inner >= 0)
        {
            if (!AddInner(result, rest[inner..]))
            {
                return null;
            }

            rest = rest[..inner].Trim();
        }

        var option = Option().Match(rest);
        var letters = (option.Success ? rest[..option.Index] : rest).Trim();
        return AddLetters(result, kind, letters) && AddOptions(result, option) ? result : null;
    }

    private static bool StartsWithWord(string text, string word) =>
        text.StartsWith(word, StringComparison.OrdinalIgnoreCase) && (text.Length == word.Length || !char.IsLetter(text[word.Length]));

    private bool AddSpan(JsonObject result, string side, Group from, Group to)
    {
        var first = int.Parse(from.ValueSpan, CultureInfo.InvariantCulture);
        var last = to.Success ? int.Parse(to.ValueSpan, CultureInfo.InvariantCulture) : first;
        if (first < 1 || last < first)
        {
            Wrong(side == "row" ? (Sentence)$"the rows {from.Value} to {(to.Success ? to.Value : from.Value)} are no span. Count from 1, the smaller first." : $"the columns {from.Value} to {(to.Success ? to.Value : from.Value)} are no span. Count from 1, the smaller first.");
            return false;
        }

        result[side] = first - 1;
        if (last > first)
        {
            result[side + "Span"] = last - first + 1;
        }

        return true;
    }

    private bool AddInner(JsonObject result, string json)
    {
        try
        {
            result["inner"] = JsonNode.Parse(json, documentOptions: new JsonDocumentOptions { MaxDepth = 32 });
            return true;
        }
        catch (JsonException)
        {
            Wrong("what stands in braces is not the JSON of a block.");
            return false;
        }
    }

    private bool AddLetters(JsonObject result, UnitKind kind, string letters)
    {
        var rows = letters.Split('/').Select(row => row.Split([' ', ',', '\t'], StringSplitOptions.RemoveEmptyEntries)).ToList();
        if (rows.SelectMany(row => row).FirstOrDefault(letter => letter is not ("-" or "–") && (letter.Length != 1 || !char.IsAsciiLetter(letter[0]))) is { } bad)
        {
            Wrong($"“{bad}” is not a fabric’s letter. Give letters with spaces between, then turn, corner, widths, cut or count.");
            return false;
        }

        static JsonNode? Letter(string letter) => letter is "-" or "–" ? null : JsonValue.Create(letter.ToUpperInvariant());
        if (kind == UnitKind.Checkerboard)
        {
            result["patches"] = new JsonArray([.. rows.Select(row => new JsonArray([.. row.Select(Letter)]))]);
        }
        else if (rows.Count > 1)
        {
            Wrong("a slash parts the rows of a checkerboard only.");
            return false;
        }
        else if (rows[0].Length > 0)
        {
            result["fabrics"] = new JsonArray([.. rows[0].Select(Letter)]);
        }

        return true;
    }

    private bool AddOptions(JsonObject result, Match option)
    {
        for (; option.Success; option = option.NextMatch())
        {
            var value = option.Groups["value"].Value.Trim();
            var word = option.Groups["word"].Value.ToLowerInvariant();
            var good = word switch
            {
                "turn" => AddWhole(result, "turn", value.TrimEnd('°')),
                "count" => AddWhole(result, "count", value),
                "corner" => AddSize(result, "corner", value),
                "widths" => AddWidths(result, value),
                _ => AddCut(result, value),
            };
            if (!good)
            {
                return false;
            }
        }

        return true;
    }

    private bool AddWhole(JsonObject result, string field, string value)
    {
        if (!int.TryParse(value, NumberStyles.None, CultureInfo.InvariantCulture, out var whole))
        {
            Wrong($"{field} is “{value}”: give a whole number.");
            return false;
        }

        result[field] = whole;
        return true;
    }

    private bool AddSize(JsonObject result, string field, string value)
    {
        var reading = LengthText.Read(value, unit);
        if (!reading.IsLength)
        {
            Wrong(reading.Why!);
            return false;
        }

        result[field] = InFile(value);
        return true;
    }

    private bool AddWidths(JsonObject result, string value)
    {
        var (sizes, problem) = SizeList.Read(value, unit, "widths");
        if (problem is not null)
        {
            Wrong(problem.Said);
            return false;
        }

        result["widths"] = new JsonArray([.. sizes.Select(size => (JsonNode)JsonValue.Create(size.Inches))]);
        return true;
    }

    private bool AddCut(JsonObject result, string value)
    {
        var sides = Times().Split(value);
        if (sides.Length != 2)
        {
            Wrong($"cut is “{value}”: give width x height, such as cut 3 x 4.");
            return false;
        }

        return AddSize(result, "cutWidth", sides[0].Trim()) && AddSize(result, "cutHeight", sides[1].Trim());
    }

    private string InFile(string value) => unit == LengthUnit.Centimetre && !value.Any(char.IsLetter) && value.IndexOfAny(['"', '″']) < 0 ? value + " cm" : value;

    private JsonObject? Wrong(Sentence error)
    {
        Error = error;
        return null;
    }

    [GeneratedRegex(@"^(?<row>\d{1,3})(?:\s*[-–]\s*(?<rowEnd>\d{1,3}))?\s*,\s*(?<column>\d{1,3})(?:\s*[-–]\s*(?<columnEnd>\d{1,3}))?(?!\d)\s*:?")]
    private static partial Regex Place();

    [GeneratedRegex(@"\b(?<word>turn|corner|widths|cut|count)\b(?<value>.*?)(?=\b(?:turn|corner|widths|cut|count)\b|$)", RegexOptions.IgnoreCase)]
    private static partial Regex Option();

    [GeneratedRegex(@"\s*[x×]\s*", RegexOptions.IgnoreCase)]
    private static partial Regex Times();
}
