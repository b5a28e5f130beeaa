using KittingBee.Web.Classes;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Shelf;

/// <summary>The fabrics and what is on hand of each.</summary>
public sealed class IndexModel(GuildStore guild, FabricStore fabrics, ShelfStore shelf, ShelfClaimStore claims, ClassStore classes) : PageModel
{
    private ILookup<long, ShelfPiece> pieces = Array.Empty<ShelfPiece>().ToLookup(piece => piece.FabricId);
    private ILookup<long, ShelfClaim> claimed = Array.Empty<ShelfClaim>().ToLookup(claim => claim.ShelfPieceId);
    private Dictionary<long, string> titles = [];

    public Guild Guild { get; private set; } = new();

    public ClassHabits Habits => Showing.Habits.Of(Guild);

    public IReadOnlyList<Fabric> Fabrics { get; private set; } = [];

    public IReadOnlyList<ShelfPiece> PiecesOf(Fabric fabric) => [.. pieces[fabric.Id]];

    /// <summary>Which open classes' plans count on the piece; of cloth that is set aside, none but its own.</summary>
    public IReadOnlyList<ShelfClaim> ClaimsOn(ShelfPiece piece) => piece.ReservedClassId is null ? [.. claimed[piece.Id]] : [];

    public string TitleOf(long classId) => titles.GetValueOrDefault(classId, Say("a class that was removed"));

    public string Describe(ShelfPiece piece) => ShelfText.Describe(piece, Habits);

    public void OnGet()
    {
        Guild = guild.Read();
        Fabrics = fabrics.All();
        pieces = shelf.All().ToLookup(piece => piece.FabricId);
        claimed = claims.OfOpenClasses().ToLookup(claim => claim.ShelfPieceId);
        titles = classes.All().ToDictionary(item => item.Id, item => item.Title);
    }

    public async Task<IActionResult> OnPostPutBackFabric(long id) => await Back(fabrics.PutBack(id), Say("The fabric is back."));

    public async Task<IActionResult> OnPostPutBackPiece(long id) => await Back(shelf.PutBack(id), Say("The piece is back on the shelf."));

    private async Task<IActionResult> Back(Task<bool> putBack, string said)
    {
        if (!await putBack)
        {
            return NotFound();
        }

        Notice.Show(TempData, said);
        return RedirectToPage();
    }
}
