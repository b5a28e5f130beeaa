using System.Text.Json;
using System.Text.RegularExpressions;
using KittingBee.Planning;

namespace KittingBee.Web.Api;

/// <summary>Turns the serializer's exceptions into problems that name the field and say what to send instead.</summary>
public static partial class JsonComplaints
{
    /// <summary>The name under which a complaint about the whole body is reported.</summary>
    public const string WholeBody = "body";

    /// <summary>Problems for a body that could not be read; never empty.</summary>
    public static IReadOnlyList<Problem> From(JsonException exception)
    {
        var field = Field(exception.Path);
        if (exception is ApiFormException)
        {
            return [new Problem(field, exception.Message)];
        }

        // Malformed text: the reader's own exception is inside, and the path says only how far it came.
        if (exception.InnerException is JsonException || exception.Path is null)
        {
            return [new Problem(WholeBody, Malformed(exception))];
        }

        var missing = MissingProperties().Match(exception.Message);
        if (missing.Success)
        {
            var prefix = field == WholeBody ? "" : field + ".";
            return [.. QuotedName().Matches(missing.Groups[1].Value)
                .Select(name => Missing(prefix + name.Groups[1].Value, name.Groups[1].Value))];
        }

        var unknown = UnknownProperty().Match(exception.Message);
        if (unknown.Success)
        {
            return [Unknown(field, unknown.Groups[1].Value)];
        }

        var noNull = NullRefused().Match(exception.Message);
        if (noNull.Success)
        {
            var name = JsonNamingPolicy.CamelCase.ConvertName(noNull.Groups[1].Value);
            var full = field.EndsWith(name, StringComparison.Ordinal) ? field : field == WholeBody ? name : field + "." + name;
            return [Null(full, name)];
        }

        var twice = Duplicate().Match(exception.Message);
        if (twice.Success)
        {
            return [Twice(field, twice.Groups[1].Value)];
        }

        return [WrongForm(field, exception)];
    }

    /// <summary>A value that its field cannot take.</summary>
    public static Problem WrongForm(string field, JsonException exception) =>
        new(field, exception is ApiFormException ? exception.Message : $"This value has the wrong form: {Expected(exception.Message)} is expected.");

    /// <summary>A field that must be given and is not.</summary>
    public static Problem Missing(string field, string name) => new(field, $"{name} is missing. Give it a value.");

    /// <summary>A field that the call does not have.</summary>
    public static Problem Unknown(string field, string name) =>
        new(field, $"\"{ApiFormException.Shorten(name)}\" is not a field of this call. The fields are listed in /openapi/v1.json.");

    /// <summary>A field that may not be null.</summary>
    public static Problem Null(string field, string name) => new(field, $"{name} may not be null. Give it a value.");

    /// <summary>A field that is given twice.</summary>
    public static Problem Twice(string field, string name) => new(field, $"\"{ApiFormException.Shorten(name)}\" is given twice. Leave one of them out.");

    private static string Field(string? path) => path is null or "$" ? WholeBody : path.StartsWith("$.", StringComparison.Ordinal) ? path[2..] : path[1..];

    private static string Malformed(JsonException exception)
    {
        var place = exception.LineNumber is { } line ? $" at line {line + 1}, place {exception.BytePositionInLine + 1}" : "";
        return exception.Message.Contains("maximum configured depth", StringComparison.Ordinal)
            ? $"The body is nested too deeply{place}. Nest blocks no more than a few levels deep."
            : $"The body is not JSON{place}. Check commas, quotes and brackets there.";
    }

    private static string Expected(string message) => message switch
    {
        _ when message.Contains("System.Int32", StringComparison.Ordinal) => "a whole number between −2,147,483,648 and 2,147,483,647",
        _ when message.Contains("System.Int64", StringComparison.Ordinal) => "a whole number",
        _ when message.Contains("System.Guid", StringComparison.Ordinal) => "an id such as \"3f2504e0-4f89-41d3-9a0c-0305e82c3301\"",
        _ when message.Contains("System.Decimal", StringComparison.Ordinal) => "a number",
        _ when message.Contains("System.Boolean", StringComparison.Ordinal) => "true or false",
        _ when message.Contains("IReadOnlyList", StringComparison.Ordinal) => "a list in square brackets",
        _ when message.Contains("System.String", StringComparison.Ordinal) => "a text in quotes",
        _ => "an object in braces",
    };

    [GeneratedRegex("missing required properties including: (.*)$", RegexOptions.Singleline)]
    private static partial Regex MissingProperties();

    [GeneratedRegex("'([^']+)'")]
    private static partial Regex QuotedName();

    [GeneratedRegex("^The JSON property '(.*)' could not be mapped", RegexOptions.Singleline)]
    private static partial Regex UnknownProperty();

    [GeneratedRegex("^Duplicate property '(.*)' encountered", RegexOptions.Singleline)]
    private static partial Regex Duplicate();

    [GeneratedRegex("'([^']+)' on type .* doesn't allow (?:setting )?null")]
    private static partial Regex NullRefused();
}
