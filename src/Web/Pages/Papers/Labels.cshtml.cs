using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Labels;
using KittingBee.Web.Running;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Papers;

/// <summary>Labels for the bags.</summary>
public sealed class LabelsModel(ClassPlanning planning, ShareAddress share) : PaperPage(planning, share)
{
    /// <summary>Key of the label sheet; the first one for the paper when not given.</summary>
    [BindProperty(SupportsGet = true, Name = "sheet")]
    public string? SheetKey { get; set; }

    /// <summary>The first label to print on, from 1, so that a begun sheet can be used up.</summary>
    [BindProperty(SupportsGet = true)]
    public int From { get; set; } = 1;

    /// <summary>Draws each label's outline, to hold against the label sheet.</summary>
    [BindProperty(SupportsGet = true)]
    public bool Test { get; set; }

    /// <summary>A sheet that is not on the list, by its measures; used where <see cref="SheetKey"/> is <c>own</c>.</summary>
    [BindProperty(SupportsGet = true)]
    public OwnLabelSheet Own { get; set; } = new();

    /// <summary>What is wrong with what was typed.</summary>
    public IReadOnlyList<string> Problems { get; private set; } = [];

    public LabelSheet Sheet { get; private set; } = LabelSheet.Usual[0];

    public IReadOnlyList<string> Drawings { get; private set; } = [];

    public override bool ToTheEdge => true;

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await Open(classId))
        {
            return NotFound();
        }

        Sheet = LabelSheet.Usual.FirstOrDefault(sheet => sheet.Key == SheetKey) ?? LabelSheet.Usual.First(sheet => sheet.PaperA4 == A4);
        if (SheetKey == OwnLabelSheet.Key)
        {
            var (own, problems) = Own.Read(A4, Habits.Metric);
            Problems = problems;
            if (own is null)
            {
                return Page();
            }

            Sheet = own;
        }

        Paper = Sheet.PaperA4 ? "a4" : "letter";
        if (From < 1 || From > Sheet.Count)
        {
            Problems = [Say($"Begin at label: {From} is not on the sheet, which has labels 1 to {Sheet.Count}. A sheet that is used up is begun anew at 1.")];
            return Page();
        }

        Drawings = LabelDrawing.Sheets([.. Plan.Kits.Select(kit => LabelOf.Kit(Plan, kit, BagAddress(kit)))], Sheet, From, Test || Sheet.Key.EndsWith("-cut", StringComparison.Ordinal));
        return Page();
    }
}
