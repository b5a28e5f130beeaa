using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>How each fabric goes into the bags: every format side by side, and the class's own precuts.</summary>
public sealed class FormatsModel(ClassDesk desk, ClassPlanning planning, FormatStore formats) : ClassPage(desk)
{
    public override string Stage => "Fabrics";

    [BindProperty]
    public PrecutsForm Form { get; set; } = new();

    public IReadOnlyList<FabricFormats> Table { get; private set; } = [];

    /// <summary>The mix as it stands.</summary>
    public FormatMix Now => new([.. Table.Select(fabric => fabric.Chosen)]);

    public FormatMix? Cheapest => FormatTable.Best(Table, row => row.BestByCost);

    public FormatMix? Quickest => FormatTable.Best(Table, row => row.BestByTime);

    /// <summary>The fabric that somebody came for or has just chosen for: its formats are unfolded.</summary>
    [BindProperty(SupportsGet = true)]
    public long Fabric { get; set; }

    /// <summary>A fabric's formats are folded away behind the chosen one where there are many fabrics.</summary>
    public bool IsOpen(FabricFormats fabric) => Table.Count <= 2 || fabric.Fabric.FabricId == Fabric;

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await OpenTable(classId))
        {
            return NotFound();
        }

        Form = PrecutsForm.From(Materials.Formats, Habits);
        return Page();
    }

    /// <summary>One fabric in one format.</summary>
    public async Task<IActionResult> OnPostChoose(long classId, long fabricId, string? format, string? way, long version)
    {
        if (!await OpenTable(classId) || Table.FirstOrDefault(item => item.Fabric.FabricId == fabricId) is not { } fabric)
        {
            return NotFound();
        }

        Fabric = fabricId;
        var row = fabric.Rows.FirstOrDefault(row => row.Choice.Format == format && row.Choice.Way == (way ?? "cut"));
        if (row is null or { IsFeasible: false } or { Before: not null })
        {
            return Refuse(row is null ? Say($"“{format}” is not a format of this class: choose one from the table.") : $"{fabric.Fabric.Name}: {row.Reason ?? row.Before}");
        }

        return await Store(version, [row], $"{fabric.Fabric.Name}: {row.Name.ToLowerInvariant()}{FormatWords.Way(row.Choice, ", ")}.", $"?fabric={fabricId}#fabric-{fabricId}");
    }

    /// <summary>The cheapest or the quickest mix, in one press.</summary>
    public async Task<IActionResult> OnPostMix(long classId, string? best, long version)
    {
        if (!await OpenTable(classId))
        {
            return NotFound();
        }

        var mix = best switch { "cost" => Cheapest, "time" => Quickest, _ => null };
        return mix is null
            ? Refuse(Say("Some fabric has no format that can be chosen yet: see its table."))
            : await Store(version, mix.Rows, best == "cost" ? Say("Every fabric is in its cheapest format.") : Say("Every fabric is in the format that takes you least time."), "");
    }

    public async Task<IActionResult> OnPostPrecuts(long classId)
    {
        if (!await OpenTable(classId))
        {
            return NotFound();
        }

        var reader = new FormReader(ModelState, nameof(Form), Record.Metric);
        var rows = Form.Read(reader, Habits);
        if (!ClassIsOpen() || !reader.IsGood)
        {
            Response.StatusCode = StatusCodes.Status400BadRequest;
            return Page();
        }

        return await Done(await formats.Save(classId, Form.Version, rows), Say("The precuts are saved, and the formats compared anew."), "");
    }

    public string Money(decimal amount) => MoneyText.Write(amount, Record.Currency);

    private async Task<IActionResult> Store(long version, IReadOnlyList<FormatRow> rows, string done, string anchor)
    {
        if (!ClassIsOpen())
        {
            Response.StatusCode = StatusCodes.Status400BadRequest;
            Form = PrecutsForm.From(Materials.Formats, Habits);
            return Page();
        }

        return await Done(await formats.Save(Record.Id, version, [.. rows.Select(row => row.Choice)]), done, anchor);
    }

    private async Task<IActionResult> Done(Saved saved, string done, string anchor)
    {
        switch (saved)
        {
            case Saved.Gone:
                return NotFound();
            case Saved.Stale:
                // What was chosen meanwhile is shown, and what was typed stays beside it.
                await OpenTable(Record.Id);
                Form.Version = Materials.Formats.Version;
                ModelState.Remove("Form.Version");
                return Refuse(Say("Somebody changed the formats or precuts of this class in the meantime. The page shows them as they are now: look again, then choose."));
            default:
                Notice.Show(TempData, done);
                return Redirect(PageAddresses.Class(Record.Id, "formats") + anchor);
        }
    }

    private Microsoft.AspNetCore.Mvc.RazorPages.PageResult Refuse(string message)
    {
        ModelState.AddModelError("", message);
        Response.StatusCode = StatusCodes.Status400BadRequest;
        if (Form.Lines.Count == 0)
        {
            Form = PrecutsForm.From(Materials.Formats, Habits);
        }

        return Page();
    }

    private async Task<bool> OpenTable(long classId)
    {
        if (!await Open(classId))
        {
            return false;
        }

        Table = FormatTable.Of(planning, Materials, Plan);
        return true;
    }
}
