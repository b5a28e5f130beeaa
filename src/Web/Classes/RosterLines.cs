using KittingBee.Planning;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Classes;

/// <summary>A pasted list read as students, with what is wrong in which line.</summary>
public sealed record RosterReading(IReadOnlyList<Student> Students, IReadOnlyList<Problem> Problems);

/// <summary>
/// Reads a roster as people paste it: one student a line; name, contact, colourway and note with a tab, semicolon or comma
/// between (none of them inside quotation marks), all but the name optional. “large print”, “left-handed” and “waiting” may stand in a place of their own.
/// </summary>
public static class RosterLines
{
    /// <summary>Most students of a class.</summary>
    public const int Most = 2000;

    internal const int LongestName = 120;
    internal const int LongestText = 400;

    /// <param name="text">The list.</param>
    /// <param name="colourways">The class's colourways, found by name without regard to case.</param>
    /// <param name="already">Students on the roster: a name that is there is pointed out.</param>
    /// <param name="duplicatesMeant">True when names that occur twice are meant.</param>
    public static RosterReading Read(string? text, IReadOnlyList<Colourway> colourways, IReadOnlyList<Student> already, bool duplicatesMeant)
    {
        var students = new List<Student>();
        var problems = new List<Problem>();
        var names = already.Select(student => student.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var number = 0;
        foreach (var line in (text ?? "").ReplaceLineEndings("\n").Split('\n'))
        {
            number++;
            if (string.IsNullOrWhiteSpace(line))
            {
                continue;
            }

            if (already.Count + students.Count >= Most)
            {
                problems.Add(new Problem($"line {number}", $"Line {number}: a class takes {Most:#,##0} students. Leave the rest out."));
                break;
            }

            var reading = ReadLine(line, colourways);
            if (reading.Problem is { } problem)
            {
                problems.Add(new Problem($"line {number}", $"Line {number}: {problem}"));
            }
            else if (!names.Add(reading.Student.Name) && !duplicatesMeant)
            {
                problems.Add(new Problem($"line {number}", $"Line {number}: {reading.Student.Name} is on the roster already. Leave the line out, or tick that names that occur twice are meant."));
            }
            else
            {
                students.Add(reading.Student);
            }
        }

        if (number > 0 && students.Count == 0 && problems.Count == 0)
        {
            problems.Add(new Problem("line 1", "There is no line to read: type or paste one student a line."));
        }

        return new RosterReading(students, problems);
    }

    private static (Student Student, Sentence? Problem) ReadLine(string line, IReadOnlyList<Colourway> colourways)
    {
        if (RosterParts.Of(line) is not var (parts, between))
        {
            return (new Student(), $"“{line.Trim()}” opens a quotation mark and does not close it. Close it after the part, or take it out.");
        }

        var student = new Student { Name = parts[0] };
        if (student.Name.Length == 0)
        {
            return (student, $"“{line.Trim()}” has no name. Put the name first.");
        }

        if (student.Name.Length > LongestName)
        {
            return (student, $"the name is {student.Name.Length} characters long; {LongestName} is the most.");
        }

        var rest = new List<string>();
        foreach (var part in parts.Skip(1))
        {
            switch (part.ToUpperInvariant())
            {
                case "LARGE PRINT":
                    student = student with { LargePrint = true };
                    break;
                case "LEFT-HANDED" or "LEFT HANDED":
                    student = student with { LeftHanded = true };
                    break;
                case "WAITING":
                    student = student with { Waiting = true };
                    break;
                default:
                    rest.Add(part);
                    break;
            }
        }

        // The contact may be left out: a colourway's name in its place means the colourway.
        if (rest.Count > 0 && Find(rest[0], colourways) is not null && (rest.Count == 1 || Find(rest[1], colourways) is null))
        {
            rest.Insert(0, "");
        }

        var (contact, wanted, note) = (rest.ElementAtOrDefault(0) ?? "", rest.ElementAtOrDefault(1) ?? "", string.Join($"{between} ", rest.Skip(2)));
        if (contact.Length > LongestText || note.Length > LongestText)
        {
            return (student, $"the contact or note of {student.Name} is longer than {LongestText} characters.");
        }

        student = student with { Contact = contact, Note = note };
        if (wanted.Length == 0)
        {
            return NearColourways.Of(contact, colourways) is { } meant
                ? (student, (Sentence)$"“{contact}” stands where {student.Name}’s contact may, and is nearly the colourway “{meant.Name}”. Write “{meant.Name}” if that is meant; a contact by this name can be typed on the student’s own page.")
                : (student, (Sentence?)null);
        }

        return Find(wanted, colourways) is { } way
            ? (student with { ColourwayId = way.Id }, (Sentence?)null)
            : (student, (Sentence)$"{student.Name} asks for the colourway “{wanted}”, which this class does not have. {Known(colourways)}");
    }

    private static Colourway? Find(string name, IReadOnlyList<Colourway> colourways) =>
        colourways.FirstOrDefault(way => string.Equals(way.Name, name, StringComparison.OrdinalIgnoreCase));

    private static Sentence Known(IReadOnlyList<Colourway> colourways) => colourways.Count == 0
        ? (Sentence)"Leave it empty for now, and make the colourways on the Fabrics page."
        : $"It has {string.Join(", ", colourways.Select(way => way.Name))}.";
}
