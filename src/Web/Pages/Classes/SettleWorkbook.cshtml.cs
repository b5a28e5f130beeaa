using KittingBee.Web.Forms;
using KittingBee.Web.Packing;
using KittingBee.Web.Settling;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>Takes the filled-in workbook back: shows what is new in it first, and stores it when told to.</summary>
[RequestSizeLimit(LargestFile + 1_000_000)]
public sealed class SettleWorkbookModel(ClassDesk desk, MarkDesk marks, ShortageStore shortages, SettlingStore settling) : PackingPage(desk, marks, shortages)
{
    // A class of hundreds makes a workbook of well under a megabyte.
    private const long LargestFile = 5_000_000;

    public override string Stage => "Settle";

    public FilledInSheet? Sheet { get; private set; }

    [BindProperty]
    public List<ClothForm> Entries { get; set; } = [];

    /// <summary>Orders of the ticks, one a line: a large class has more of them than a form may have fields.</summary>
    [BindProperty]
    public string? Ticks { get; set; }

    /// <summary>Lines that are short, with how many pieces.</summary>
    [BindProperty]
    public List<ShortageForm> Shorts { get; set; } = [];

    private string[] SentTicks => (Ticks ?? "").Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);

    public async Task<IActionResult> OnGet(long classId) => await OpenBags(classId) ? Page() : NotFound();

    /// <summary>Reads the file and shows what would change; stores nothing.</summary>
    public async Task<IActionResult> OnPost(long classId, IFormFile? file)
    {
        if (!await OpenBags(classId))
        {
            return NotFound();
        }

        if (file is null || file.Length == 0)
        {
            ModelState.AddModelError("file", Say("No file was chosen: choose the workbook that was filled in."));
        }
        else if (file.Length > LargestFile)
        {
            ModelState.AddModelError("file", Say("The file is larger than 5 MB; the workbook of a class is not. Choose another."));
        }
        else
        {
            using var stream = new MemoryStream();
            await file.CopyToAsync(stream);
            Sheet = new FilledInSheetReader(Plan, Bags, new ClothRecords(settling.Purchases(classId), settling.Given(classId), settling.Leftovers(classId), Shortages)).Read(stream);
        }

        if (!ModelState.IsValid)
        {
            Response.StatusCode = StatusCodes.Status400BadRequest;
        }

        return Page();
    }

    /// <summary>Stores what was shown, all of it or nothing.</summary>
    public async Task<IActionResult> OnPostTake(long classId)
    {
        if (!await OpenBags(classId))
        {
            return NotFound();
        }

        var (bought, given, left) = (new List<FabricPurchase>(), new List<GivenOut>(), new List<Leftover>());
        for (var at = 0; at < Entries.Count; at++)
        {
            var (entry, reader) = (Entries[at], new FormReader(ModelState, $"Entries[{at}]", Record.Metric));
            if (Plan.Fabrics.All(fabric => fabric.FabricId != entry.FabricId))
            {
                reader.Wrong(nameof(entry.FabricId), "An entry’s fabric is no longer the class’s: read the workbook again.");
                continue;
            }

            switch (entry.What)
            {
                case "bought": bought.Add(entry.Bought(reader, classId)); break;
                case "given": given.Add(entry.Given(reader, classId)); break;
                default: left.Add(entry.Left(reader, classId, Materials.Fabrics[entry.FabricId].UsableWidth)); break;
            }
        }

        var reports = ReadShorts();
        if (Record.IsClosed)
        {
            ModelState.AddModelError("file", Say("The class is closed: open it again on its Settle page first."));
        }

        if (!ModelState.IsValid)
        {
            Response.StatusCode = StatusCodes.Status400BadRequest;
            Sheet = AsSent();
            return Page();
        }

        var stored = await settling.AddAll(bought, given, left);
        var ticked = SentTicks.Select(PackOrder.Read).OfType<PackOrder>().Where(order => order.Where != PackOrder.Deal).SelectMany(order => order.Marks(Bags, Helper.ForMark(Request))).ToList();
        await Marks.Mark(classId, ticked);
        var shorted = 0;
        foreach (var report in reports)
        {
            shorted += await ShortageBook.Report(report) ? 1 : 0;
        }

        if (shorted > 0)
        {
            Marks.Table(classId).TellOfShortages();
        }

        Notice.Say(TempData, $"From the workbook: {Many(stored, "amount")}, {Many(ticked.Count, "tick")}, {Many(shorted, "short line")} for the re-cut ticket.");
        return Redirect(PageAddresses.Class(classId, "settle"));
    }

    private List<Shortage> ReadShorts()
    {
        var reports = new List<Shortage>();
        for (var at = 0; at < Shorts.Count; at++)
        {
            var (form, reader) = (Shorts[at], new FormReader(ModelState, $"Shorts[{at}]", Record.Metric));
            if (SheetShort.Read(form.Order) is not { } order || Bags.All.FirstOrDefault(bag => bag.Kit.KitId == order.KitId) is not { } bag)
            {
                reader.Wrong(nameof(form.Order), "A kit that is short is no longer the class’s: read the workbook again.");
                continue;
            }

            form.Line = order.Line;
            form.Note = Say("from the workbook");
            if (form.Read(reader, bag, Helper.ForMark(Request)) is { } report)
            {
                reports.Add(report with { Id = order.Id, ClassId = Record.Id });
            }
        }

        return reports;
    }

    /// <summary>The preview as it was sent, to be mended: nothing that was typed is lost.</summary>
    private FilledInSheet AsSent()
    {
        var names = Plan.Fabrics.ToDictionary(fabric => fabric.FabricId, fabric => fabric.Name);
        var lines = (from bag in Bags.All from line in bag.Lines select (bag.Kit, line.Line)).ToDictionary(at => FormattableString.Invariant($"{at.Kit.KitId} {at.Line.Key}"));
        return new(
            [.. Entries.Where(entry => names.ContainsKey(entry.FabricId)).Select(entry => new SheetEntry(entry.What ?? "", entry.FabricId, names[entry.FabricId], entry.Length ?? "", entry.Width ?? "", entry.Paid ?? "", entry.Note ?? "", entry.ToShelf))],
            [.. from order in SentTicks
                where PackOrder.Read(order) is not null && lines.ContainsKey(Where(order))
                let at = lines[Where(order)]
                select new SheetTick(order, $"{FilledInSheet.InWords(at.Kit, at.Line, Habits)} bagged")],
            [.. from form in Shorts
                where SheetShort.Read(form.Order) is not null && lines.ContainsKey(Where(form.Order!))
                let at = lines[Where(form.Order!)]
                select new SheetShort(form.Order!, form.Count ?? "", at.Line.Count, FilledInSheet.InWords(at.Kit, at.Line, Habits))],
            []);

        // Orders end with kit and line: "bagged 12 A-4x4".
        static string Where(string order) => order[(order.IndexOf(' ', StringComparison.Ordinal) + 1)..];
    }
}
