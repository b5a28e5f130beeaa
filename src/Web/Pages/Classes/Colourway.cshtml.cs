using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Drawing;
using KittingBee.Web.Forms;
using KittingBee.Web.Pages.Shelf;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Mvc;

namespace KittingBee.Web.Pages.Classes;

/// <summary>A fabric that is typed beside its letter; all else of it starts as usual and can be changed on the shelf.</summary>
public sealed class TypedFabric
{
    public string? Name { get; set; }

    public string? Price { get; set; }
}

/// <summary>Chooses the fabric of each letter.</summary>
public sealed class ColourwayModel(ClassDesk desk, FabricStore fabrics, ColourwayStore colourways, RosterStore roster) : ClassPage(desk)
{
    [BindProperty(SupportsGet = true)]
    public long? Id { get; set; }

    [BindProperty]
    public string? Name { get; set; }

    /// <summary>Letter to the fabric's number; null where none is chosen.</summary>
    [BindProperty(Name = nameof(Fabric))] // Named, or other fields would be taken for letters where a form has none of these.
    public Dictionary<string, long?> Fabric { get; set; } = [];

    /// <summary>Letter to a fabric that is not on the shelf yet.</summary>
    [BindProperty(Name = nameof(New))]
    public Dictionary<string, TypedFabric> New { get; set; } = [];

    [BindProperty]
    public long Version { get; set; }

    /// <summary>New fabrics are typed here as long as the shelf has fewer than the block has letters.</summary>
    public bool TypesFabrics => Id is null && Shelf.Count < Letters.Count;

    public IReadOnlyList<Fabric> Shelf { get; private set; } = [];

    /// <summary>The colour of each letter that has a fabric, to draw the block in.</summary>
    public IReadOnlyDictionary<string, string> Chosen => Fabric
        .Select(pair => (Letter: pair.Key, Cloth: Shelf.FirstOrDefault(cloth => cloth.Id == pair.Value)))
        .Where(pair => pair.Cloth is not null).ToDictionary(pair => pair.Letter, pair => pair.Cloth!.Colour);

    public override string Stage => "Fabrics";

    /// <summary>This page's own address, for a page that leads back.</summary>
    public string Address => PageAddresses.Class(Record.Id, Id is { } id ? $"fabrics/{id}" : "fabrics/new") + string.Concat(Take.Select((fabric, place) => $"{(place == 0 ? '?' : '&')}take={fabric}"));

    /// <summary>Fabrics that were put on the shelf for this colourway: each goes to the first letter that has none.</summary>
    [BindProperty(SupportsGet = true)]
    public IReadOnlyList<long> Take { get; set; } = [];

    public async Task<IActionResult> OnGet(long classId)
    {
        if (!await OpenWithShelf(classId) || (Id is not null && Stored() is null))
        {
            return NotFound();
        }

        if (Stored() is { } stored)
        {
            (Name, Version) = (stored.Name, stored.Version);
            Fabric = stored.FabricOfLetter.ToDictionary(pair => pair.Key, pair => (long?)pair.Value);
        }
        else
        {
            Name = Say($"Colourway {Materials.Colourways.Count + 1}");
            New = Shelf.Count > 0 ? [] : Letters.Where(letter => letter.Name.Length > 0).ToDictionary(letter => letter.Letter, letter => new TypedFabric { Name = char.ToUpper(letter.Name[0], Language.Current.Culture) + letter.Name[1..] });
        }

        foreach (var fabric in Take.Where(fabric => Shelf.Any(one => one.Id == fabric)))
        {
            if (Letters.FirstOrDefault(letter => Fabric.GetValueOrDefault(letter.Letter) is null) is { } bare)
            {
                Fabric[bare.Letter] = fabric;
            }
        }

        return Page();
    }

    public async Task<IActionResult> OnPost(long classId)
    {
        if (!await OpenWithShelf(classId))
        {
            return NotFound();
        }

        var (colourway, typed) = Read(classId);
        if (!ClassIsOpen() || !ModelState.IsValid)
        {
            return Page();
        }

        var given = 0;
        if (Id is null)
        {
            var whole = colourway.FabricOfLetter.ToDictionary();
            foreach (var (letter, fabric) in typed)
            {
                whole[letter] = await fabrics.Add(fabric);
            }

            colourway = colourway with { FabricOfLetter = whole };
            given = await GiveTheOnlyOne(colourway with { Id = await colourways.Add(colourway) });
        }
        else
        {
            switch (await colourways.Save(colourway))
            {
                case Saved.Gone:
                    return NotFound();
                case Saved.Stale:
                    var now = Stored()!;
                    this.SayStale(Shown(now), Shown(colourway), () => Version = now.Version, nameof(Version));
                    return Page();
            }
        }

        if (given > 0)
        {
            Notice.Say(TempData, $"{colourway.Name} is saved, and {Many(given, "student")} without one have it.");
        }
        else
        {
            Notice.Say(TempData, $"{colourway.Name} is saved.");
        }

        return Redirect(PageAddresses.Class(classId, "fabrics"));
    }

    public async Task<IActionResult> OnPostRemove(long classId)
    {
        if (!await OpenWithShelf(classId) || Stored() is not { } stored)
        {
            return NotFound();
        }

        if (!ClassIsOpen())
        {
            return Page();
        }

        await colourways.Remove(classId, stored.Id);
        Notice.Say(TempData, $"{stored.Name} is taken away.", $"{PageAddresses.Class(classId, "fabrics")}?handler=PutBack&id={stored.Id}");
        return Redirect(PageAddresses.Class(classId, "fabrics"));
    }

    // Where there is one colourway, there is nothing to choose.
    private async Task<int> GiveTheOnlyOne(Colourway colourway)
    {
        var chosen = EvenSpread.Of(Materials.Students, Materials.Colourways.Count == 0 ? [colourway] : [], everybody: false);
        return chosen.Count > 0 && await roster.ChooseColourways(colourway.ClassId, chosen) ? chosen.Count : 0;
    }

    private (Colourway Colourway, IReadOnlyDictionary<string, Fabric> Typed) Read(long classId)
    {
        // No prefix: the fields stand on the page itself.
        var name = (Name ?? "").Trim();
        if (name.Length is 0 or > 80)
        {
            ModelState.AddModelError(nameof(Name), name.Length == 0 ? Say("The colourway’s name is missing: type it here.") : Say($"The name is {name.Length} characters long; 80 is the most."));
        }
        else if (Materials.Colourways.Any(way => way.Id != Id && string.Equals(way.Name, name, StringComparison.OrdinalIgnoreCase)))
        {
            ModelState.AddModelError(nameof(Name), Say($"This class has a colourway “{name}” already: give this one another name."));
        }

        var chosen = new Dictionary<string, long>();
        var typed = new Dictionary<string, Fabric>();
        foreach (var letter in Letters)
        {
            if (Fabric.GetValueOrDefault(letter.Letter) is { } id && Shelf.Any(fabric => fabric.Id == id))
            {
                chosen[letter.Letter] = id;
            }
            else if (TypesFabrics && New.GetValueOrDefault(letter.Letter) is { } line && !string.IsNullOrWhiteSpace(line.Name))
            {
                var form = FabricForm.New(Habits);
                (form.Name, form.Price, form.Colour) = (line.Name, line.Price, FabricLook.Of(letter.Letter).Colour);
                typed[letter.Letter] = form.Read(new FormReader(ModelState, $"{nameof(New)}[{letter.Letter}]", Record.Metric));
            }
            else
            {
                ModelState.AddModelError($"Fabric[{letter.Letter}]", Say($"Fabric {letter.Letter} ({letter.Name}) has no fabric in this colourway: choose one from the shelf."));
            }
        }

        return (new Colourway { Id = Id ?? 0, ClassId = classId, Name = name, Version = Version, FabricOfLetter = chosen }, typed);
    }

    /// <summary>The colourway in words, by letter.</summary>
    private Dictionary<string, string> Shown(Colourway way) => way.FabricOfLetter.OrderBy(pair => pair.Key, StringComparer.Ordinal)
        .Select(pair => ($"fabric {pair.Key}", Shelf.FirstOrDefault(fabric => fabric.Id == pair.Value)?.Name ?? ""))
        .Prepend(("name", way.Name)).ToDictionary(pair => pair.Item1, pair => pair.Item2);

    private Colourway? Stored() => Id is { } id ? Materials.Colourways.FirstOrDefault(way => way.Id == id) : null;

    private async Task<bool> OpenWithShelf(long classId)
    {
        if (!await Open(classId))
        {
            return false;
        }

        // A fabric taken off the shelf stays in the colourways that have it.
        var all = fabrics.All();
        Shelf = [.. all, .. Materials.Fabrics.Values.Where(used => all.All(fabric => fabric.Id != used.Id))];
        return true;
    }
}
