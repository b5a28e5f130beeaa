using System.Text.RegularExpressions;
using KittingBee.Web.Showing;

namespace KittingBee.Web.Tests.Languages;

/// <summary>Scripts say their texts through <c>words.js</c>, and each page gives them what its language needs.</summary>
public sealed partial class ScriptWordsTests
{
    // Neither texts nor names that a pattern could tell from texts: fields of forms, keys, selectors, and what is kept under in a browser.
    private static readonly string[] NoTexts =
    [
        "Name", "Columns", "Rows", "Fabrics", "Units", "Version", "Line", "Count", "Reason", "Note", "Discard",
        "Enter", "Home", "End", "Delete", "Backspace",
        "input, textarea", "#keys details", "kitting-bee mark {} ",
        "quiet small", "dye quiet", "buttons moves", "notice saying", "warn pending",
    ];

    public static TheoryData<string> Files => [.. ScriptWords.Files];

    [Theory]
    [MemberData(nameof(Files))]
    public void Script_HoldsNoTextThatIsNotSaid(string file)
    {
        var unsaid = ScriptReader.Read(ScriptWords.Source(file)).Literals
            .Where(literal => !SaidTexts.IsSaid(literal) && !NoTexts.Contains(literal.Text) && ForPeople().IsMatch(literal.Text))
            .Select(literal => $"{file}, line {literal.Line}: {literal.Text}").ToList();
        Assert.True(unsaid.Count == 0, $"Said to nobody's language:\n{string.Join('\n', unsaid)}");
    }

    [Theory]
    [MemberData(nameof(Files))]
    public void Script_SaysEachTextInPlaceWithItsValues(string file)
    {
        foreach (var call in ScriptReader.Read(ScriptWords.Source(file)).Calls.Where(call => file != "words.js" && SaidTexts.Says(call.Name)))
        {
            var text = call.Given[SaidTexts.PlaceOfText(call.Name)];
            Assert.True(text is not null, $"{file}, line {call.Line}: say each text on its own, written where it is said.");
            if (call.Name != "many" && !call.Spreads)
            {
                Assert.True(Place().Matches(text).Select(match => match.Value).Distinct().Count() == call.Given.Count - 1, $"{file}, line {call.Line}: “{text}” is given {call.Given.Count - 1} values.");
            }
        }
    }

    [Theory]
    [MemberData(nameof(Files))]
    public void Page_GivesEachScriptWhatItSays(string file) =>
        Assert.Superset(SaidTexts.Of(file).ToHashSet(StringComparer.Ordinal), ScriptWords.Of(file).ToHashSet(StringComparer.Ordinal));

    [Theory]
    [InlineData("""x = say("One {0} two", many(n, "kit"), `${a ? "b c" : say("d")}`)""", "One {0} two|{0} kit|{0} kits|d")]
    [InlineData("""/* say("no") */ x = /say\("["]no"\)/.test(y) ? rich("Yes") : z // say("no")""", "Yes")]
    [InlineData("""x = say(a ? "One" : "Two") + tell("Three")""", "")]
    public void Reader_FindsWhatIsSaid(string script, string said) =>
        Assert.Equal(said.Split('|', StringSplitOptions.RemoveEmptyEntries).Order(), SaidTexts.Said(script).Order());

    /// <summary>Two words, a word with a capital, or what ends like a sentence.</summary>
    [GeneratedRegex(@"\p{L}{2}[\p{L}’']*[,;:.…]?\s+(?:\p{L}|\{\}\s+\p{L})|^\p{Lu}\p{Ll}+[.!?…]?$|\p{L}[.!?…]+\s*$")]
    private static partial Regex ForPeople();

    [GeneratedRegex(@"\{[0-9]+\}")]
    private static partial Regex Place();
}
