using Dapper;
using KittingBee.Planning.Blocks;
using KittingBee.Web.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Face;

namespace KittingBee.Web.Tests.Languages;

/// <summary>Whatever people see or hear on a page or paper is said, so that every language can have it.</summary>
public sealed class UnsaidTests(DemonstrationHost guild) : IClassFixture<DemonstrationHost>
{
    /// <summary>What the guild itself wrote, wherever it is kept; longest first, since one may stand in another.</summary>
    private const string OwnWords =
        """
        SELECT name FROM guild UNION SELECT name FROM fabric UNION SELECT supplier_note FROM fabric UNION SELECT name FROM block UNION SELECT name FROM project
        UNION SELECT title FROM class UNION SELECT place FROM class UNION SELECT held_time FROM class UNION SELECT block_name FROM class UNION SELECT note FROM shelf_piece UNION SELECT name FROM colourway
        UNION SELECT name FROM student UNION SELECT contact FROM student UNION SELECT note FROM student UNION SELECT code FROM kit UNION SELECT who FROM kit_mark UNION SELECT note FROM purchase
        UNION SELECT note FROM leftover UNION SELECT note FROM given_out UNION SELECT name FROM share_device UNION SELECT link FROM kit_link UNION SELECT link FROM share_join
        UNION SELECT json_extract(sketch_json, '$.name') FROM block_draft UNION SELECT typed_lines FROM block UNION SELECT typed_lines FROM class
        """;

    public static TheoryData<string> Pages =>
    [
        .. FaceTests.Pages.Select(row => row.Data),
        "/classes/2/print/all", "/classes/2/print/handouts", "/classes/2/print/labels", "/classes/2/print/tickets", "/own/{link}/handout", "/classes/4/print/all",
    ];

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Page_SaysEveryText(string address)
    {
        await SpeakMadeUp(guild);
        using var client = guild.CreateClient();
        var (_, html) = await new FormClient(client).Get(new Uri(guild.At(address)).PathAndQuery);
        Assert.Contains("⟦", System.Net.WebUtility.HtmlDecode(html), StringComparison.Ordinal);
        var unsaid = MadeUpLanguage.Unsaid(html, Own(guild)).ToList();
        Assert.True(unsaid.Count == 0, $"{address} shows what was not said:\n{string.Join('\n', unsaid)}");
    }

    internal static async Task SpeakMadeUp(GuildHost guild)
    {
        var settings = guild.Get<GuildStore>();
        await settings.Save(settings.Read() with { Language = MadeUpLanguage.Tag });
    }

    internal static List<string> Own(GuildHost guild)
    {
        using var connection = guild.Get<Database>().Open();
        var typed = connection.Query<string?>("SELECT typed_lines FROM block").OfType<string>().SelectMany(lines => TypedCutList.Read(lines, UsualRules.For(metric: false)).CutList!.Fabrics).Select(fabric => fabric.Name);
        var started = Starters.All.SelectMany(starter => starter.Block.Fabrics.Select(fabric => fabric.Name).Append(starter.Block.Name));
        var names = connection.Query<string>("SELECT name FROM student").SelectMany(name => name.Split(' ')); // A label breaks a long name.
        return [.. connection.Query<string?>(OwnWords).OfType<string>().SelectMany(words => words.Split('\n')).Concat(typed).Concat(started).Concat(names).Where(words => words.Length > 1).Distinct().OrderByDescending(words => words.Length)];
    }
}
