using System.Text.Encodings.Web;
using System.Text.Json;
using KittingBee.Web.Classes;
using KittingBee.Web.Rosters;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Classes;

/// <summary>Takes a roster from a file: first a look at what was understood, then all of it or nothing.</summary>
[RequestSizeLimit(3 * RosterFile.LargestFile)]
[RequestFormLimits(ValueLengthLimit = 3 * RosterFile.LargestFile, BufferBodyLengthLimit = 3 * RosterFile.LargestFile)]
public sealed class ImportModel(ClassDesk desk, RosterStore roster) : ClassPage(desk)
{
    private const int RowsShown = 30;

    // The page escapes them; twice would make a long list longer than a form may be.
    private static readonly JsonSerializerOptions AsTheyAre = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public override string Stage => "Roster";

    public IFormFile? Upload { get; set; }

    /// <summary>The rows that were read, carried through the preview; every reading starts from them anew.</summary>
    [BindProperty]
    public string? Rows { get; set; }

    [BindProperty]
    public string? ReadAs { get; set; }

    [BindProperty]
    public bool Heading { get; set; }

    [BindProperty]
    public List<RosterColumn> Columns { get; set; } = [];

    [BindProperty]
    public bool DuplicatesMeant { get; set; }

    /// <summary>Leaves out the rows that have problems; else nothing is imported while there is one.</summary>
    [BindProperty]
    public bool WithoutWrong { get; set; }

    public IReadOnlyList<RosterRow> Table { get; private set; } = [];

    public IReadOnlyList<ImportedRow> Read { get; private set; } = [];

    public IReadOnlyList<ImportedRow> Wrong => [.. Read.Where(row => row.Problem is not null)];

    /// <summary>Rows with problems first, then the first of the others, so that a long list can be looked at.</summary>
    public IReadOnlyList<ImportedRow> Shown => [.. Wrong.Take(200), .. Read.Where(row => row.Problem is null).Take(RowsShown)];

    public int Good => Read.Count - Wrong.Count;

    public string HeadingOf(int column) => Heading && Table.Count > 0 && Table[0].Cells.ElementAtOrDefault(column) is { Length: > 0 } text ? text : Say($"Column {column + 1}");

    public string WayOf(Student student) => Materials.Colourways.FirstOrDefault(way => way.Id == student.ColourwayId)?.Name ?? "";

    public async Task<IActionResult> OnGet(long classId) => await Open(classId) ? Page() : NotFound();

    public async Task<IActionResult> OnPost(long classId, IFormFile? upload)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        if (upload is null)
        {
            return Refuse(Say("Choose the file with the list first."));
        }

        if (upload.Length > RosterFile.LargestFile)
        {
            return Refuse(RosterFile.TooLarge(upload.Length));
        }

        using var bytes = new MemoryStream();
        await upload.CopyToAsync(bytes);
        var table = RosterFile.Read(bytes.ToArray());
        if (table.Problem is { } problem)
        {
            return Refuse(problem);
        }

        (Table, ReadAs) = (table.Rows, table.ReadAs);
        Rows = JsonSerializer.Serialize(table.Rows, AsTheyAre);
        Heading = RosterImport.HasHeading(Table);
        Columns = [.. RosterImport.Guess(Table, Heading)];
        Preview();
        return Page();
    }

    /// <summary>Reads the rows again with other columns.</summary>
    public async Task<IActionResult> OnPostLook(long classId) => !await Open(classId) ? NotFound() : TakeRows() ? Page() : Refuse(Say("The rows of the file are gone: choose the file again."));

    public async Task<IActionResult> OnPostTake(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        if (!TakeRows())
        {
            return Refuse(Say("The rows of the file are gone: choose the file again."));
        }

        if (!ClassIsOpen())
        {
            return Page();
        }

        if (Good == 0 || (Wrong.Count > 0 && !WithoutWrong))
        {
            ModelState.AddModelError("", Good == 0 ? Say("There is no row that can be taken: say which column has the names.") : Say("Nothing is taken yet: mend the rows below in the file, or leave them out."));
            Response.StatusCode = StatusCodes.Status400BadRequest;
            return Page();
        }

        await roster.Add(classId, [.. Read.Where(row => row.Problem is null).Select(row => row.Student)]);
        Notice.Show(TempData, Wrong.Count > 0 ? Say($"{Many(Good, "student")} added to the roster; {Many(Wrong.Count, "row")} left out.") : Say($"{Many(Good, "student")} added to the roster."));
        return Redirect(PageAddresses.Class(classId, "roster"));
    }

    private bool TakeRows()
    {
        try
        {
            Table = JsonSerializer.Deserialize<List<RosterRow>>(Rows ?? "") ?? [];
        }
        catch (JsonException)
        {
            return false;
        }

        if (Table.Count is 0 or > RosterFile.MostRows || Table.Any(row => row?.Cells is null || row.Cells.Count > RosterFile.MostColumns || row.Cells.Any(cell => cell is null || cell.Length > RosterFile.LongestCell)))
        {
            return false;
        }

        Preview();
        return true;
    }

    private void Preview() => Read = RosterImport.Read(Table, Heading, Columns, Materials.Colourways, Materials.Students, DuplicatesMeant);

    private PageResult Refuse(string message)
    {
        ModelState.AddModelError(nameof(Upload), message);
        Response.StatusCode = StatusCodes.Status400BadRequest;
        return Page();
    }
}
