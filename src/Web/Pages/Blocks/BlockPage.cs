using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages.Blocks;

/// <summary>A page about blocks: it knows how the guild measures, and the block it is about. Call <see cref="Open(long)"/> first.</summary>
public abstract class BlockPage(BlockStore blocks, GuildStore guild) : PageModel
{
    private ClassHabits? habits;

    public ClassHabits Habits => habits ??= Showing.Habits.Of(guild.Read());

    /// <summary>The unit of a bare number.</summary>
    public LengthUnit Unit => Habits.Metric ? LengthUnit.Centimetre : LengthUnit.Inch;

    public StoredBlock Stored { get; private set; } = new();

    /// <summary>The block as it is drawn; null for a typed list, or with <see cref="Problems"/>.</summary>
    public Block? Block { get; protected set; }

    /// <summary>What stands in the way of a cut list.</summary>
    public IReadOnlyList<Problem> Problems { get; protected set; } = [];

    protected BlockStore Store => blocks;

    /// <summary>Reads the block; false where there is none.</summary>
    protected bool Open(long id)
    {
        if (blocks.Find(id) is not { } stored)
        {
            return false;
        }

        Open(stored);
        return true;
    }

    /// <summary>Takes a block that was read already.</summary>
    protected void Open(StoredBlock stored)
    {
        Stored = stored;
        if (stored.Json is { } json)
        {
            (Block, Problems) = BlockJson.Read(json);
        }
    }
}
