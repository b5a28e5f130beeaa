using System.Net;
using KittingBee.Web.Showing;

namespace KittingBee.Web.Tests.Classes;

public sealed class CutPageTests(SampleClassHost host) : IClassFixture<SampleClassHost>
{
    [Fact]
    public async Task Cut_ShowsEachFabricsPlan_AndTheWholeShoppingList()
    {
        var plan = await host.Plan();

        var (status, html) = await host.Client.Get($"/classes/{host.ClassId}/cut");
        var words = FormClient.Words(html);

        Assert.Equal(HttpStatusCode.OK, status);
        Assert.NotEmpty(plan.Fabrics);
        foreach (var fabric in plan.Fabrics)
        {
            Assert.Contains(fabric.Name, words, StringComparison.Ordinal);
            Assert.Contains($"{fabric.Plan!.Strokes} strokes", words, StringComparison.Ordinal);
            if (fabric.Plan.Buy.Length.IsPositive)
            {
                Assert.Contains(FormClient.Words($"Buy {plan.Habits.ShowYardage(fabric.Plan.Buy.Length)}"), words, StringComparison.Ordinal);
            }
        }

        Assert.Contains(MoneyText.Write(plan.Fabrics.Sum(fabric => fabric.Plan!.Buy.Cost), "USD"), words, StringComparison.Ordinal);
        Assert.Contains("Remnant 20″ × 13″, from the spring class", words, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Cut_DrawsARecipeForEveryBoltStripAndEverySheet()
    {
        var plan = await host.Plan();
        var (_, html) = await host.Client.Get($"/classes/{host.ClassId}/cut");

        var drawn = html.Split("class=\"drawing").Length - 1;
        Assert.Equal(plan.Fabrics.Sum(fabric => fabric.Plan!.Strips.Count + fabric.Plan.Sheets.Count), drawn);
    }

    [Fact]
    public async Task Cut_LeadsToThePageThatSaysHowManyMoreKitsFit()
    {
        var room = $"/classes/{host.ClassId}/room";
        var (_, html) = await host.Client.Get($"/classes/{host.ClassId}/cut");

        Assert.Contains($"href=\"{room}\"", html, StringComparison.Ordinal);
        Assert.Equal(HttpStatusCode.OK, (await host.Client.Get(room)).Status);
    }

    [Theory]
    [InlineData("/classes/999999/cut")]
    [InlineData("/classes/999999/price")]
    [InlineData("/classes/999999/print")]
    [InlineData("/classes/999999/print/handouts")]
    [InlineData("/classes/999999/print/tickets")]
    [InlineData("/classes/999999/print/labels")]
    [InlineData("/classes/999999/print/workbook")]
    [InlineData("/classes/abc/cut")]
    public async Task PagesOfAClassThatIsNotThere_AreNotFound(string address) =>
        Assert.Equal(HttpStatusCode.NotFound, (await host.Client.Get(address)).Status);
}
