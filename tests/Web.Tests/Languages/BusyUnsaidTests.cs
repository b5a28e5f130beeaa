using KittingBee.Planning.Formats;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Packing;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Face;

namespace KittingBee.Web.Tests.Languages;

/// <summary>The demonstration with more going on: a short bag, too little bought, a fabric that goes into the bags uncut.</summary>
public sealed class BusyHost : DemonstrationHost
{
    public override async ValueTask InitializeAsync()
    {
        await base.InitializeAsync();
        var planned = (await Get<ClassPlanning>().Plan(1))!;
        var line = PackLine.Of(planned.CutList)[0];
        Assert.True(await Get<ShortageStore>().Report(new Shortage
        {
            Id = Guid.NewGuid(), ClassId = 1, KitId = planned.Kits[0].KitId, Letter = line.Letter, FabricId = planned.Colourways[0].FabricOfLetter[line.Letter], Width = line.Width, Height = line.Height, Count = 2, Reason = "spoiled", Who = "Wren Castellan",
        }));
        var handed = (await Get<ClassPlanning>().Plan(2))!.Fabrics;
        Assert.Equal(Saved.Done, await Get<FormatStore>().Save(2, Get<FormatStore>().ForClass(2).Version, [new FormatChoice { FabricId = handed[0].FabricId, Format = FormatCodes.FatQuarter }, new FormatChoice { FabricId = handed[^1].FabricId, Format = FormatCodes.Yardage }]));
        await Get<SettlingStore>().AddPurchase(new FabricPurchase { ClassId = 2, FabricId = handed[2].FabricId, Length = Length.FromInches(4), Paid = 1m });
    }
}

/// <summary>What pages and papers say only then is said in the reader's language too.</summary>
public sealed class BusyUnsaidTests(BusyHost guild) : IClassFixture<BusyHost>
{
    [Theory]
    [InlineData("/classes/1")]
    [InlineData("/classes/1/recut")]
    [InlineData("/classes/1/pack")]
    [InlineData("/classes/1/pack/history")]
    [InlineData("/classes/1/settle?makes=true")]
    [InlineData("/classes/2")]
    [InlineData("/classes/2/cut")]
    [InlineData("/classes/2/formats")]
    [InlineData("/classes/2/shopping")]
    [InlineData("/classes/2/pack")]
    [InlineData("/classes/2/room")]
    [InlineData("/classes/2/settle")]
    [InlineData("/classes/2/print/all")]
    [InlineData("/bag/{code}")]
    [InlineData("/own/{link}")]
    public async Task Page_SaysEveryText(string address)
    {
        await UnsaidTests.SpeakMadeUp(guild);
        using var client = guild.CreateClient();
        var (_, html) = await new FormClient(client).Get(new Uri(guild.At(address)).PathAndQuery);
        var unsaid = MadeUpLanguage.Unsaid(html, UnsaidTests.Own(guild)).ToList();
        Assert.True(unsaid.Count == 0, $"{address} shows what was not said:\n{string.Join('\n', unsaid)}");
    }
}
