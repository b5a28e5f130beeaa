using System.Text.RegularExpressions;
using KittingBee.Web.Classes;
using KittingBee.Web.Demonstration;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Pages;

namespace KittingBee.Web.Tests.Demonstration;

public sealed partial class DemonstrationTests
{
    [Fact]
    public async Task Demonstration_HasWhatADemonstrationNeeds()
    {
        using var guild = new GuildHost();
        await guild.Get<DemonstrationGuild>().Load();
        var classes = guild.Get<ClassStore>().All();
        var ready = await Plan(guild, classes.Single(item => item.Title.StartsWith("Ribbon Star", StringComparison.Ordinal)));
        Assert.Equal(12, ready.Kits.Count(kit => kit.Role == KitRole.Student));
        Assert.Equal(3, ready.Colourways.Count);
        Assert.Empty(ready.Problems);
        Assert.All(ready.Fabrics, fabric => Assert.NotNull(fabric.Plan));
        Assert.Contains(ready.Fabrics, fabric => fabric.Plan!.Sheets.Count > 0);

        var finished = await Plan(guild, classes.Single(item => item.Title.StartsWith("Churn Dash", StringComparison.Ordinal)));
        var standing = KitMarks.Standing(guild.Get<PackingStore>().MarksAfter(finished.ClassId, 0));
        Assert.All(finished.Kits, kit => Assert.Equal("handed-over", standing[(kit.KitId, KitMark.WholeKit)].State));
        Assert.Equal(finished.Fabrics.Select(fabric => fabric.FabricId).Order(), guild.Get<SettlingStore>().Purchases(finished.ClassId).Select(bought => bought.FabricId).Order());
        Assert.InRange(guild.Get<FabricStore>().All().Count, 8, 12);
        Assert.Contains(classes, item => item.TypedLines is not null);
    }

    [Fact]
    public async Task Demonstration_BoughtEnoughForTheFinishedClass()
    {
        using var guild = new GuildHost();
        await guild.Get<DemonstrationGuild>().Load();
        var finished = await Plan(guild, guild.Get<ClassStore>().All().Single(item => item.PrintedAt is not null));
        var bought = guild.Get<SettlingStore>().Purchases(finished.ClassId).ToDictionary(item => item.FabricId, item => item.Length);
        Assert.All(finished.Fabrics, fabric => Assert.True(bought[fabric.FabricId] >= fabric.Plan!.Buy.Length, $"{fabric.Name} was not bought in full"));
    }

    // Whatever a link on a page of the demonstration leads to, is there.
    [Fact]
    public async Task Demonstration_EveryLink_LeadsSomewhere()
    {
        using var guild = new GuildHost();
        await guild.Get<DemonstrationGuild>().Load();
        using var pages = new PageClient(guild);
        var waiting = new Queue<string>(["/"]);
        var seen = new HashSet<string>(["/"]);
        var missing = new List<string>();
        while (waiting.TryDequeue(out var address))
        {
            using var answer = await pages.Http.GetAsync(new Uri(address, UriKind.Relative), TestContext.Current.CancellationToken);
            if ((int)answer.StatusCode >= 400)
            {
                missing.Add($"{address}: {(int)answer.StatusCode}");
            }

            if (answer.Content.Headers.ContentType?.MediaType != "text/html")
            {
                continue;
            }

            var html = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
            foreach (Match link in Link().Matches(html))
            {
                var to = System.Net.WebUtility.HtmlDecode(link.Groups[1].Value);
                if (seen.Add(to))
                {
                    waiting.Enqueue(to);
                }
            }
        }

        Assert.True(seen.Count > 30, $"Only {seen.Count} links were found.");
        Assert.True(missing.Count == 0, string.Join(", ", missing));
    }

    private static async Task<ClassPlan> Plan(GuildHost guild, ClassRecord record) => (await guild.Get<ClassPlanning>().Plan(record.Id))!;

    [GeneratedRegex("href=\"(/[^\"#]*)[\"#]")]
    private static partial Regex Link();
}
