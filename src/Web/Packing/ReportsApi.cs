using KittingBee.Web.Api;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Mvc.ModelBinding;

namespace KittingBee.Web.Packing;

/// <summary>A report from a device: a piece that a bag lacks, or an earlier report taken back.</summary>
public sealed record ReportCall
{
    /// <summary>Made by the device, and the same when the report is sent again.</summary>
    public required Guid Id { get; init; }

    /// <summary>The kit; left out when a report is taken back.</summary>
    public long Kit { get; init; }

    /// <summary>Its line.</summary>
    public string Line { get; init; } = "";

    /// <summary>How many of its pieces.</summary>
    public int Count { get; init; } = 1;

    /// <summary>missing or spoiled.</summary>
    public string Reason { get; init; } = "missing";

    /// <summary>What to remember of it.</summary>
    public string Note { get; init; } = "";

    /// <summary>Who says so.</summary>
    public string Who { get; init; } = "";

    /// <summary>Id of the report to take back; all but the id is left out then.</summary>
    public Guid? Withdraws { get; init; }
}

/// <summary>What came of a report.</summary>
/// <param name="Id">The device's id.</param>
/// <param name="Outcome">stored, known or refused; in each case it need not be sent again.</param>
/// <param name="Why">Why it was refused.</param>
public sealed record ReportAnswer(Guid Id, string Outcome, string Why = "");

/// <summary>Reports of short and spoiled pieces from phones, which keep them as they keep marks while they have no line.</summary>
public static class ReportsApi
{
    public static async Task<Results<Ok<ReportAnswer>, NotFound>> Report(
        long classId, JsonBody<ReportCall> body, ClassPlanning planning, MarkDesk desk, ShortageStore shortages, HttpContext context)
    {
        if (planning.Materials(classId) is not { } materials)
        {
            return TypedResults.NotFound();
        }

        var call = body.Call;
        ReportAnswer answer;
        if (call.Withdraws is { } withdraws)
        {
            answer = new(call.Id, await shortages.Withdraw(classId, withdraws) ? "stored" : "known");
        }
        else if (shortages.Knows(classId, call.Id))
        {
            answer = new(call.Id, "known");
        }
        else if (materials.Record.IsClosed)
        {
            answer = new(call.Id, "refused", Say("The class is closed: open it again on its Settle page to go on packing."));
        }
        else
        {
            var bags = Bags.Of(await planning.Plan(materials), desk.Table(classId), []);
            answer = await Store(classId, call, bags, materials.Record.Metric, Helper.ForMark(context.Request, call.Who), shortages);
        }

        if (answer.Outcome == "stored")
        {
            desk.Table(classId).TellOfShortages();
        }

        return TypedResults.Ok(answer);
    }

    private static async Task<ReportAnswer> Store(long classId, ReportCall call, Bags bags, bool metric, string who, ShortageStore shortages)
    {
        if (bags.All.FirstOrDefault(bag => bag.Kit.KitId == call.Kit) is not { } bag)
        {
            return new(call.Id, "refused", Say("This kit is not in this class."));
        }

        // The same reading as the form's, so that a report is refused for the same reasons whichever way it comes.
        var faults = new ModelStateDictionary();
        var form = new ShortageForm { Line = call.Line, Count = FormattableString.Invariant($"{call.Count}"), Reason = call.Reason, Note = call.Note };
        if (form.Read(new FormReader(faults, "Report", metric), bag, who) is not { } shortage)
        {
            return new(call.Id, "refused", string.Join(' ', faults.Values.SelectMany(state => state.Errors).Select(fault => fault.ErrorMessage)));
        }

        var stored = await shortages.Report(shortage with { Id = call.Id, ClassId = classId });
        return new(call.Id, stored ? "stored" : "known");
    }
}
