using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Shelf;

/// <summary>Puts cloth on the shelf, or changes what lies there.</summary>
public sealed class PieceModel(GuildStore guild, FabricStore fabrics, ShelfStore shelf) : PageModel
{
    [BindProperty(SupportsGet = true)]
    public long? Id { get; set; }

    /// <summary>The fabric of a new piece.</summary>
    [BindProperty(SupportsGet = true, Name = "fabric")]
    public long? FabricId { get; set; }

    [BindProperty]
    public PieceForm Form { get; set; } = new();

    public bool IsNew => Id is null;

    public Fabric Fabric { get; private set; } = new();

    public ClassHabits Habits { get; private set; } = new(false, false, "USD");

    public IActionResult OnGet()
    {
        if (!Open(out var piece))
        {
            return NotFound();
        }

        Form = piece is null ? PieceForm.New(Fabric, Habits) : PieceForm.From(piece, Habits);
        return Page();
    }

    public async Task<IActionResult> OnPost()
    {
        if (!Open(out _))
        {
            return NotFound();
        }

        var reader = new FormReader(ModelState, nameof(Form), Habits.Metric);
        var piece = Form.Read(reader, Fabric, Habits) with { Id = Id ?? 0 };
        if (!reader.IsGood)
        {
            return Page();
        }

        if (IsNew)
        {
            await shelf.Add(piece);
        }
        else
        {
            switch (await shelf.Save(piece))
            {
                case Saved.Gone:
                    return NotFound();
                case Saved.Stale:
                    var now = shelf.Find(piece.Id)!;
                    this.SayStale(PieceForm.From(now, Habits), Form, () => Form.Version = now.Version);
                    return Page();
            }
        }

        Notice.Say(TempData, $"{ShelfText.Describe(piece, Habits)} of {Fabric.Name} is on the shelf.");
        return Redirect("/shelf");
    }

    public async Task<IActionResult> OnPostRemove()
    {
        if (!Open(out var piece) || piece is null || !await shelf.Remove(piece.Id))
        {
            return NotFound();
        }

        Notice.Say(TempData, $"{ShelfText.Describe(piece, Habits)} of {Fabric.Name} is off the shelf.", $"/shelf?handler=PutBackPiece&id={piece.Id}");
        return Redirect("/shelf");
    }

    private bool Open(out ShelfPiece? piece)
    {
        Habits = Showing.Habits.Of(guild.Read());
        piece = Id is { } id ? shelf.Find(id) : null;
        if ((Id is not null && piece is null) || fabrics.Find(piece?.FabricId ?? FabricId ?? 0) is not { DeletedAt: null } fabric)
        {
            return false;
        }

        Fabric = fabric;
        return true;
    }
}
