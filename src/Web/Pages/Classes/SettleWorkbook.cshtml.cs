using System.Globalization;
using KittingBee.Web.Classes;
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
            ModelState.AddModelError("file", "No file was chosen: choose the workbook that was filled in.");
        }
        else if (file.Length > LargestFile)
        {
            ModelState.AddModelError("file", "The file is larger than 5 MB; the workbook of a class is not. Choose another.");
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
            ModelState.AddModelError("file", "The class is closed: open it again on its Settle page first.");
        }

        if (!ModelState.IsValid)
        {
            Response.StatusCode = StatusCodes.Status400BadRequest;
            Sheet = AsSent();
            return Page();
        }

        var stored = await settling.AddAll(bought, given, left);
        var ticked = (Ticks ?? "").Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries).Select(PackOrder.Read).OfType<PackOrder>().Where(order => order.Where != PackOrder.Deal).SelectMany(order => order.Marks(Bags, Helper.ForMark(Request))).ToList();
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
            form.Note = "from the workbook";
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
        var lines = Bags.All.SelectMany(bag => bag.Lines.Select(line => (bag.Kit, line.Line))).ToDictionary(line => (line.Kit.KitId, line.Line.Key));
        string Words((PlannedKit Kit, PackLine Line) at) => $"kit {at.Kit.Number}, {at.Kit.Name}: {at.Line.Letter} {at.Line.Size(Habits)}";
        return new(
            [.. Entries.Where(entry => names.ContainsKey(entry.FabricId)).Select(entry => new SheetEntry(entry.What ?? "", entry.FabricId, names[entry.FabricId], entry.Length ?? "", entry.Width ?? "", entry.Paid ?? "", entry.Note ?? "", entry.ToShelf))],
            [.. from text in (Ticks ?? "").Split('\n', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries)
                let order = PackOrder.Read(text)
                where order is not null && long.TryParse(order.Where, out _) && lines.ContainsKey((long.Parse(order.Where, CultureInfo.InvariantCulture), order.Line))
                select new SheetTick(text, $"{Words(lines[(long.Parse(order.Where, CultureInfo.InvariantCulture), order.Line)])} bagged")],
            [.. from form in Shorts
                let order = SheetShort.Read(form.Order)
                where order is not null && lines.ContainsKey((order.Value.KitId, order.Value.Line))
                let line = lines[(order.Value.KitId, order.Value.Line)]
                select new SheetShort(form.Order!, form.Count ?? "", line.Line.Count, Words(line))],
            []);
    }
}
