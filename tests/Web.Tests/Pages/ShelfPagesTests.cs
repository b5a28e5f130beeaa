using System.Net;
using KittingBee.Planning.Measures;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Pages;

public sealed class ShelfPagesTests : IDisposable
{
    private readonly GuildHost guild = new();
    private readonly PageClient pages;

    public ShelfPagesTests() => pages = new PageClient(guild);

    [Fact]
    public async Task FirstRun_AsksOnceForUnitsPaperAndCurrency()
    {
        Assert.Contains("First, about your guild", await pages.Get("/"), StringComparison.Ordinal);
        var (status, _) = await pages.Post("/", "/settings", ("Form.Name", "Millpond Piecers"), ("Form.Units", "centimetres"), ("Form.Paper", "a4"), ("Form.Currency", "eur"), ("Form.Version", "0"));
        Assert.Equal(HttpStatusCode.Redirect, status);
        var home = await pages.Get("/");
        Assert.Contains("Millpond Piecers", home, StringComparison.Ordinal);
        Assert.DoesNotContain("First, about your guild", home, StringComparison.Ordinal);
        Assert.Equal("EUR", guild.Get<GuildStore>().Read().Currency);
    }

    [Fact]
    public async Task Demonstration_ShownAndEmptied_LeavesAnEmptyGuild()
    {
        await pages.Post("/", "/?handler=Demonstration");
        Assert.Contains("Larkfield Piecers", await pages.Get("/"), StringComparison.Ordinal);
        var (status, _) = await pages.Post("/settings", "/settings?handler=Empty");
        Assert.Equal(HttpStatusCode.Redirect, status);
        Assert.Contains("First, about your guild", await pages.Get("/"), StringComparison.Ordinal);
        Assert.Empty(guild.Get<FabricStore>().All());
        Assert.Empty(guild.Get<ClassStore>().All());
        Assert.Single(Directory.GetFiles(guild.Get<KittingBee.Web.Running.DataFolder>().Backups));
    }

    [Fact]
    public async Task Guild_OfItsOwn_CannotBeEmptied()
    {
        await pages.Post("/", "/settings", ("Form.Name", "Millpond Piecers"), ("Form.Units", "inches"), ("Form.Paper", "letter"), ("Form.Currency", "USD"), ("Form.Version", "0"));
        var (status, _) = await pages.Post("/settings", "/settings?handler=Empty");
        Assert.Equal(HttpStatusCode.NotFound, status);
        Assert.Equal("Millpond Piecers", guild.Get<GuildStore>().Read().Name);
    }

    [Theory]
    [InlineData("1,200")]
    [InlineData("12,000")]
    public async Task Price_WithAThousandsComma_IsNotTakenForADecimalComma(string price)
    {
        var (status, text) = await pages.Post("/shelf/fabrics/new", "/shelf/fabrics/new", Fabric(("Form.Price", price)));
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains($"The price is “{price}”, which can be read two ways", text, StringComparison.Ordinal);
        Assert.Contains($"value=\"{price}\"", text, StringComparison.Ordinal);
        Assert.Empty(guild.Get<FabricStore>().All());
    }

    [Fact]
    public async Task Fabric_TypedInEitherMeasure_IsStoredExactly()
    {
        var (status, _) = await pages.Post("/shelf/fabrics/new", "/shelf/fabrics/new", Fabric(("Form.UsableWidth", "41 7/8"), ("Form.Increment", "0.25 m")));
        Assert.Equal(HttpStatusCode.Redirect, status);
        var stored = Assert.Single(guild.Get<FabricStore>().All());
        Assert.Equal(Length.FromInches(41, 7, 8), stored.UsableWidth);
        Assert.Equal(Length.FromMillimetres(250), stored.Increment);
        Assert.Equal(11.5m, stored.Price);
    }

    [Theory]
    [InlineData("Form.Name", " ", "name is missing")]
    [InlineData("Form.Colour", "red", "“red”")]
    [InlineData("Form.UsableWidth", "wide", "wide")]
    [InlineData("Form.UsableWidth", "0", "longer than nothing")]
    [InlineData("Form.UsableWidth", "1500 yd", "1,000 yd")]
    [InlineData("Form.UsableWidth", "420", "The usable width is 420: it may be 120″ at most")]
    [InlineData("Form.UsableWidth", "1/2", "it must be 1″ at least")]
    [InlineData("Form.Price", "-1", "from 0 to")]
    [InlineData("Form.Price", "11.505", "hundredth")]
    [InlineData("Form.Price", "$11", "without a sign")]
    [InlineData("Form.Price", "1e3", "“1e3”")]
    [InlineData("Form.PricePer", "ell", "choose one")]
    [InlineData("Form.ShrinkageAlong", "60", "from 0 to 50")]
    public async Task Fabric_WithAMistake_IsToldAtItsFieldAndKeepsWhatWasTyped(string field, string typed, string said)
    {
        var (status, text) = await pages.Post("/shelf/fabrics/new", "/shelf/fabrics/new", Fabric((field, typed)));
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Matches($"data-valmsg-for=\"{field}\"[^>]*>[^<]*{System.Text.RegularExpressions.Regex.Escape(said)}", text);
        Assert.Contains("stall by the door", text, StringComparison.Ordinal);
        Assert.Empty(guild.Get<FabricStore>().All());
    }

    [Fact]
    public async Task Piece_WiderThanItsFabric_IsRefusedWithTheRemedy()
    {
        await pages.Post("/shelf/fabrics/new", "/shelf/fabrics/new", Fabric());
        var fabric = guild.Get<FabricStore>().All()[0];
        var address = $"/shelf/pieces/new?fabric={fabric.Id}";
        var (_, text) = await pages.Post(address, address, ("Form.Kind", "remnant"), ("Form.Width", "50"), ("Form.Length", "12"), ("Form.Count", "1"));
        Assert.Contains("Bluebell is 42″ wide between the selvages", text, StringComparison.Ordinal);
        Assert.Empty(guild.Get<ShelfStore>().All());
    }

    [Fact]
    public async Task Form_WithoutItsToken_IsRefused()
    {
        using var form = new FormUrlEncodedContent(Fabric().Select(field => KeyValuePair.Create(field.Name, field.Value)));
        using var answer = await pages.Http.PostAsync(new Uri("/shelf/fabrics/new", UriKind.Relative), form, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.BadRequest, answer.StatusCode);
        Assert.Empty(guild.Get<FabricStore>().All());
    }

    private static (string Name, string Value)[] Fabric(params (string Name, string Value)[] instead)
    {
        var fields = new Dictionary<string, string>
        {
            ["Form.Name"] = "Bluebell", ["Form.Colour"] = "#35507f", ["Form.UsableWidth"] = "42", ["Form.Price"] = "11.50", ["Form.PricePer"] = "yard", ["Form.Increment"] = "1/8",
            ["Form.Minimum"] = "1/8", ["Form.ShrinkageAlong"] = "0", ["Form.ShrinkageAcross"] = "0", ["Form.SupplierNote"] = "stall by the door",
        };
        foreach (var (name, value) in instead)
        {
            fields[name] = value;
        }

        return [.. fields.Select(field => (field.Key, field.Value))];
    }

    public void Dispose()
    {
        pages.Dispose();
        guild.Dispose();
    }
}
