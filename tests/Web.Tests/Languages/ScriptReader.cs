using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace KittingBee.Web.Tests.Languages;

/// <summary>
/// Reads a script as far as its texts need it: where comments, texts and regular expressions begin and end, and which call a text is
/// given to.
/// </summary>
internal sealed partial class ScriptReader
{
    private readonly string source;
    private readonly Stack<Call> open = new();
    private readonly List<Call> calls = [];
    private readonly List<Literal> literals = [];
    private int at;

    private ScriptReader(string source) => this.source = source;

    /// <summary>A text in quotes; a value inside a template stands as {}.</summary>
    /// <param name="Text">Without its quotes.</param>
    /// <param name="Call">What it is given to by itself, such as say; empty where it is part of something else.</param>
    /// <param name="Place">At which place of the call, from 0.</param>
    /// <param name="Line">From 1.</param>
    public sealed record Literal(string Text, string Call, int Place, int Line);

    /// <summary>A bracket and what stands before it.</summary>
    public sealed class Call(string name, int line)
    {
        public string Name { get; } = name;

        public int Line { get; } = line;

        /// <summary>Its places, the last one's texts among them.</summary>
        public List<string?> Given { get; } = [null];

        public bool Spreads { get; set; }
    }

    public static (IReadOnlyList<Literal> Literals, IReadOnlyList<Call> Calls) Read(string source)
    {
        var reader = new ScriptReader(source);
        reader.Code('\0');
        return (reader.literals, reader.calls);
    }

    /// <summary>Reads on up to the end, or up to the bracket that closes a template's value.</summary>
    private void Code(char end)
    {
        var depth = open.Count;
        while (at < source.Length)
        {
            var letter = source[at];
            if (letter == end && open.Count == depth)
            {
                return;
            }

            switch (letter)
            {
                case '"' or '\'' or '`':
                    Keep(letter);
                    continue;
                case '/' when source[at + 1] == '/':
                    at = End("\n", at);
                    continue;
                case '/' when source[at + 1] == '*':
                    at = End("*/", at) + 2;
                    continue;
                case '/' when "(,=:[!&|?{};+-*<>~".Contains(Before(at), StringComparison.Ordinal):
                    at += Pattern().Match(source, at).Length;
                    continue;
                case '(' or '[' or '{':
                    var call = new Call(letter == '(' ? Name().Match(source[..at]).Value.TrimStart('.') : "", Line);
                    open.Push(call);
                    calls.Add(call);
                    break;
                case ')' or ']' or '}':
                    open.Pop();
                    break;
                case ',' when open.Count > 0:
                    open.Peek().Given.Add(null);
                    break;
                case '.' when open.Count > 0 && source.AsSpan(at).StartsWith("...", StringComparison.Ordinal) && Before(at) is '(' or ',':
                    open.Peek().Spreads = true;
                    break;
            }

            at++;
        }
    }

    private void Keep(char quote)
    {
        var (start, line, text) = (at++, Line, new StringBuilder());
        for (; source[at] != quote; at++)
        {
            if (quote == '`' && source[at] == '$' && source[at + 1] == '{')
            {
                at += 2;
                Code('}');
                text.Append("{}");
            }
            else
            {
                text.Append(source[at] == '\\' ? source[++at] : source[at]);
            }
        }

        at++;
        var stands = quote != '`' && open.Count > 0 && Before(start) is '(' or ',' && After(at) is ',' or ')';
        if (stands)
        {
            open.Peek().Given[^1] = text.ToString();
        }

        literals.Add(new(text.ToString(), stands ? open.Peek().Name : "", stands ? open.Peek().Given.Count - 1 : 0, line));
    }

    private int Line => source.AsSpan(0, at).Count('\n') + 1;

    private int End(string mark, int from) => source.IndexOf(mark, from, StringComparison.Ordinal) is >= 0 and var found ? found : source.Length;

    private char Before(int place) => source[..place].TrimEnd() is { Length: > 0 } text ? text[^1] : '(';

    private char After(int place) => source[place..].TrimStart() is { Length: > 0 } text ? text[0] : ')';

    [GeneratedRegex(@"[\w.#]+$")]
    private static partial Regex Name();

    [GeneratedRegex(@"\G/(?:\\.|\[(?:\\.|[^\]])*\]|[^/\\])+/[a-z]*")]
    private static partial Regex Pattern();
}
