using System.Reflection;
using System.Reflection.Emit;
using KittingBee.Planning;
using KittingBee.Web.Showing;

namespace KittingBee.Web.Tests.Languages;

/// <summary>
/// Finds every text that the program can say by reading the compiled program: the compiler turns each into calls of
/// <see cref="Sentence"/>, in pages as in classes, however it was written. Scripts are read as they are.
/// </summary>
internal static class SaidTexts
{
    private const BindingFlags Everything = BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;

    private static readonly Dictionary<short, OpCode> Codes = typeof(OpCodes).GetFields(BindingFlags.Public | BindingFlags.Static)
        .Select(field => (OpCode)field.GetValue(null)!).ToDictionary(code => code.Value);

    /// <summary>The texts, and the places where one is said that the language files cannot know because it is not written there.</summary>
    public static (IReadOnlySet<string> Texts, IReadOnlyList<string> Unknown) All { get; } = Find();

    private static (IReadOnlySet<string> Texts, IReadOnlyList<string> Unknown) Find()
    {
        var texts = new HashSet<string>(StringComparer.Ordinal);
        var unknown = new List<string>();
        foreach (var type in typeof(Words).Assembly.GetTypes().Concat(typeof(Sentence).Assembly.GetTypes()).Where(type => type != typeof(Sentence) && type != typeof(Words) && !IsForPrograms(type)))
        {
            foreach (var method in type.GetMembers(Everything).OfType<MethodBase>())
            {
                Read(method, texts, unknown);
            }
        }

        texts.UnionWith(ScriptWords.Files.SelectMany(Of));
        return (texts, unknown);
    }

    /// <summary>The texts that a script says itself.</summary>
    public static IEnumerable<string> Of(string file) => Said(ScriptWords.Source(file));

    /// <inheritdoc cref="Of"/>
    public static IEnumerable<string> Said(string script) => ScriptReader.Read(script).Literals.Where(IsSaid)
        .SelectMany(literal => literal.Call == "many" ? [$"{{0}} {literal.Text}", $"{{0}} {literal.Text}s"] : new[] { literal.Text });

    /// <summary>True for the functions of words.js that say a text.</summary>
    public static bool Says(string function) => function is "say" or "rich" or "many";

    /// <summary>Which of a function's values is the text.</summary>
    public static int PlaceOfText(string function) => function == "many" ? 1 : 0;

    /// <summary>True for a text of a script that is said in the reader's language.</summary>
    public static bool IsSaid(ScriptReader.Literal literal) => Says(literal.Call) && literal.Place == PlaceOfText(literal.Call);

    /// <summary>Programs are answered in English alone.</summary>
    private static bool IsForPrograms(Type type) => type.Namespace == "KittingBee.Web.Api" || type.FullName!.Contains("PackingApi", StringComparison.Ordinal);

    private static void Read(MethodBase method, HashSet<string> texts, List<string> unknown)
    {
        // Sentences inside a sentence's values are finished before it is.
        var open = new Stack<Draft>();
        foreach (var step in Steps(method))
        {
            if (step.Called is not { } called)
            {
                continue;
            }

            if (called.DeclaringType == typeof(Sentence))
            {
                switch (called.Name)
                {
                    case ".ctor":
                        open.Push(new Draft(step.Numbers[^2], step.Numbers[^1]));
                        break;
                    case nameof(Sentence.AppendLiteral):
                        open.Peek().Literal(step.Text!);
                        break;
                    case nameof(Sentence.AppendFormatted):
                        open.Peek().Value(called.GetParameters().Length == 2 ? step.Text : null);
                        break;
                    case "op_Implicit":
                        if (step.Text is { } text && !step.IsJoin)
                        {
                            texts.Add(text.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal));
                        }
                        else
                        {
                            unknown.Add($"{method.DeclaringType}.{method.Name}");
                        }

                        break;
                }

                if (open.TryPeek(out var draft) && draft.IsWhole)
                {
                    texts.Add(open.Pop().Text);
                }
            }
            else if (called.Name == nameof(Words.Many) && called.DeclaringType == typeof(Words))
            {
                if (step.Text is { } thing && !step.IsJoin)
                {
                    texts.Add($"{{0}} {thing}");
                    texts.Add($"{{0}} {thing}s");
                }
                else
                {
                    unknown.Add($"{method.DeclaringType}.{method.Name}");
                }
            }
        }
    }

    /// <summary>The calls of a method with the text that was loaded just before each, and the two whole numbers last loaded.</summary>
    private static IEnumerable<(MethodBase? Called, string? Text, bool IsJoin, int[] Numbers)> Steps(MethodBase method)
    {
        if (method.GetMethodBody()?.GetILAsByteArray() is not { } body)
        {
            yield break;
        }

        var targets = new HashSet<int>();
        var numbers = new List<int> { 0, 0 };
        string? text = null;
        for (var at = 0; at < body.Length;)
        {
            var start = at;
            var code = Codes[body[at] == 0xFE ? (short)((body[at++] << 8) | body[at++]) : body[at++]];
            var operand = at;
            at += Size(code, body, at);
            if (code.OperandType == OperandType.InlineBrTarget)
            {
                targets.Add(at + BitConverter.ToInt32(body, operand));
            }
            else if (code.OperandType == OperandType.ShortInlineBrTarget)
            {
                targets.Add(at + (sbyte)body[operand]);
            }
            else if (Number(code, body, operand) is { } number)
            {
                numbers.Add(number);
            }

            if (code.OperandType is OperandType.InlineMethod)
            {
                var called = method.Module.ResolveMethod(BitConverter.ToInt32(body, operand), method.DeclaringType?.GetGenericArguments(), method.IsGenericMethod ? method.GetGenericArguments() : null);
                yield return (called, text, targets.Contains(start), [.. numbers[^2..]]);
            }

            text = code == OpCodes.Ldstr ? method.Module.ResolveString(BitConverter.ToInt32(body, operand)) : null;
        }
    }

    private static int? Number(OpCode code, byte[] body, int operand) =>
        code == OpCodes.Ldc_I4 ? BitConverter.ToInt32(body, operand)
        : code == OpCodes.Ldc_I4_S ? (sbyte)body[operand]
        : code.Value >= OpCodes.Ldc_I4_0.Value && code.Value <= OpCodes.Ldc_I4_8.Value ? code.Value - OpCodes.Ldc_I4_0.Value
        : null;

    private static int Size(OpCode code, byte[] body, int at) => code.OperandType switch
    {
        OperandType.InlineNone => 0,
        OperandType.ShortInlineBrTarget or OperandType.ShortInlineI or OperandType.ShortInlineVar => 1,
        OperandType.InlineVar => 2,
        OperandType.InlineI8 or OperandType.InlineR => 8,
        OperandType.InlineSwitch => 4 + (4 * BitConverter.ToInt32(body, at)),
        _ => 4,
    };

    private sealed class Draft(int literal, int values)
    {
        private readonly System.Text.StringBuilder format = new();
        private int literalLeft = literal;
        private int valuesSeen;

        public bool IsWhole => literalLeft == 0 && valuesSeen == values;

        public string Text => format.ToString();

        public void Literal(string text)
        {
            literalLeft -= text.Length;
            format.Append(text.Replace("{", "{{", StringComparison.Ordinal).Replace("}", "}}", StringComparison.Ordinal));
        }

        public void Value(string? valueFormat) => format.Append('{').Append(valuesSeen++).Append(valueFormat is null ? "" : ":" + valueFormat).Append('}');
    }
}
