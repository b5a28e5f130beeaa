using KittingBee.Planning;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Rosters;

/// <summary>What a column of the file holds.</summary>
public enum RosterColumn
{
    /// <summary>Nothing that the roster needs.</summary>
    LeaveOut,

    /// <summary>A name, or part of one: several are put together in their order.</summary>
    Name,

    /// <summary>E-mail, telephone: several are put together.</summary>
    Contact,

    /// <summary>A colourway of the class, by name.</summary>
    Colourway,

    /// <summary>Anything else worth keeping.</summary>
    Note,

    /// <summary>Yes or no.</summary>
    LargePrint,

    /// <summary>Yes or no.</summary>
    LeftHanded,

    /// <summary>Yes or no: on the waiting list.</summary>
    Waiting,
}

/// <summary>A row as it would be stored, and what is wrong with it.</summary>
public sealed record ImportedRow(int Number, Student Student, string? Problem);

/// <summary>Turns rows of a file into students.</summary>
public static class RosterImport
{
    // Whole words: a Telford is not a telephone.
    private static readonly (RosterColumn Column, string[] Words)[] Headings =
    [
        (RosterColumn.LargePrint, ["large print"]),
        (RosterColumn.LeftHanded, ["left handed", "lefty"]),
        (RosterColumn.Waiting, ["waiting", "wait list", "waitlist"]),
        (RosterColumn.Colourway, ["colourway", "colorway", "colour", "color"]),
        (RosterColumn.Contact, ["mail", "email", "phone", "telephone", "mobile", "contact"]),
        (RosterColumn.Note, ["note", "notes", "comment", "comments", "remarks"]),
        (RosterColumn.Name, ["name", "names", "surname", "forename", "student", "students", "participant", "participants"]),
    ];

    private static readonly string[] Yes = ["YES", "Y", "X", "1", "TRUE", "✓", "✔", "☒", "☑"];
    private static readonly string[] No = ["", "NO", "N", "0", "FALSE", "-", "–", "☐"];

    /// <summary>True where the first row reads like headings.</summary>
    public static bool HasHeading(IReadOnlyList<RosterRow> rows) => rows is [var first, ..] && first.Cells.Count(cell => Guess(cell) is not null) * 2 > first.Cells.Count(cell => cell.Length > 0);

    /// <summary>A first guess for each column, from its heading; without one the first is the name and the second the contact.</summary>
    public static IReadOnlyList<RosterColumn> Guess(IReadOnlyList<RosterRow> rows, bool heading)
    {
        var count = rows.Count == 0 ? 0 : rows.Max(row => row.Cells.Count);
        RosterColumn[] order = [RosterColumn.Name, RosterColumn.Contact, RosterColumn.Colourway, RosterColumn.Note];
        return [.. Enumerable.Range(0, count).Select(column => heading
            ? Guess(rows[0].Cells.ElementAtOrDefault(column) ?? "") ?? RosterColumn.LeaveOut
            : order.ElementAtOrDefault(column))];
    }

    /// <summary>Every row as a student, with its problem where it has one.</summary>
    public static IReadOnlyList<ImportedRow> Read(
        IReadOnlyList<RosterRow> rows, bool heading, IReadOnlyList<RosterColumn> columns, IReadOnlyList<Colourway> colourways, IReadOnlyList<Student> already, bool duplicatesMeant)
    {
        var names = already.GroupBy(student => student.Name, StringComparer.OrdinalIgnoreCase).ToDictionary(same => same.Key, _ => Say("is on the roster already"), StringComparer.OrdinalIgnoreCase);
        var read = new List<ImportedRow>();
        foreach (var row in rows.Skip(heading ? 1 : 0))
        {
            var (student, problem) = ReadRow(row, columns, colourways);
            if (problem is null && !duplicatesMeant && names.TryGetValue(student.Name, out var where))
            {
                problem = Say($"{student.Name} {where}. Leave the row out, or tick that names that occur twice are meant.");
            }

            if (problem is null && already.Count + read.Count >= RosterLines.Most)
            {
                problem = Say($"a class takes {RosterLines.Most:#,##0} students.");
            }

            names.TryAdd(student.Name, Say($"stands in row {row.Number} too"));
            read.Add(new(row.Number, student, problem));
        }

        return read;
    }

    private static (Student Student, string? Problem) ReadRow(RosterRow row, IReadOnlyList<RosterColumn> columns, IReadOnlyList<Colourway> colourways)
    {
        string Text(RosterColumn column, string between) => string.Join(between, Parts(column));
        IEnumerable<string> Parts(RosterColumn column) => row.Cells.Where((cell, index) => cell.Length > 0 && columns.ElementAtOrDefault(index) == column);
        var problems = new List<string>();
        bool Flag(RosterColumn column, Sentence what)
        {
            var text = Text(column, " ");
            var isYes = Yes.Contains(text.ToUpperInvariant()) || new[] { what.ToString(), Say(what) }.Contains(text, StringComparer.OrdinalIgnoreCase);
            if (!isYes && !No.Contains(text.ToUpperInvariant()))
            {
                problems.Add(Say($"“{text}” under {what} is neither yes nor no."));
            }

            return isYes;
        }

        var wanted = Text(RosterColumn.Colourway, " ");
        var way = colourways.FirstOrDefault(way => string.Equals(way.Name, wanted, StringComparison.OrdinalIgnoreCase));
        var student = new Student
        {
            Name = Text(RosterColumn.Name, " "),
            Contact = Text(RosterColumn.Contact, ", "),
            Note = Text(RosterColumn.Note, "; "),
            ColourwayId = way?.Id,
            LargePrint = Flag(RosterColumn.LargePrint, "large print"),
            LeftHanded = Flag(RosterColumn.LeftHanded, "left-handed"),
            Waiting = Flag(RosterColumn.Waiting, "waiting"),
        };
        if (student.Name.Length == 0)
        {
            problems.Insert(0, Say("there is no name in the row."));
        }
        else if (student.Name.Length > RosterLines.LongestName)
        {
            problems.Insert(0, Say($"the name is {student.Name.Length} characters long; {RosterLines.LongestName} is the most."));
        }

        if (student.Contact.Length > RosterLines.LongestText || student.Note.Length > RosterLines.LongestText)
        {
            problems.Add(Say($"the contact or the note is longer than {RosterLines.LongestText} characters."));
        }

        if (wanted.Length > 0 && way is null)
        {
            problems.Add(colourways.Count == 0
                ? Say($"the class has no colourway “{wanted}”.")
                : Say($"the class has no colourway “{wanted}”; it has {string.Join(", ", colourways.Select(known => known.Name))}."));
        }

        return (student, problems.Count == 0 ? null : string.Join(" ", problems));
    }

    private static RosterColumn? Guess(string heading)
    {
        var words = $" {string.Join(' ', string.Concat(heading.Select(letter => char.IsLetter(letter) ? letter : ' ')).Split(' ', StringSplitOptions.RemoveEmptyEntries))} ";
        foreach (var (column, known) in Headings)
        {
            if (heading.Length <= 40 && known.Any(word => words.Contains($" {word} ", StringComparison.OrdinalIgnoreCase)))
            {
                return column;
            }
        }

        return null;
    }
}
