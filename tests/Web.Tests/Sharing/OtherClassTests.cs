using System.Net;
using System.Net.Http.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using KittingBee.Planning.Measures;
using KittingBee.Web.Packing;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Packing;

namespace KittingBee.Web.Tests.Sharing;

/// <summary>A helper of one class tries, with a browser's tools in hand, to reach into another: by forged fields, foreign numbers and bent addresses.</summary>
public sealed partial class OtherClassTests : IAsyncLifetime
{
    private readonly SharedHost guild = new();
    private HttpClient helper = null!;
    private Kit own = null!;
    private Kit other = null!;

    public async ValueTask InitializeAsync()
    {
        await guild.InitializeAsync();
        helper = await guild.Helper(guild.ClassId);
        own = guild.Get<KitStore>().ForClass(guild.ClassId)[0];
        other = guild.Get<KitStore>().ForClass(guild.OtherClassId)[0];
    }

    public async ValueTask DisposeAsync()
    {
        helper.Dispose();
        await guild.DisposeAsync();
    }

    [Fact]
    public async Task FieldsNamedLikeTheAddress_DoNotTakeItsPlace()
    {
        var table = $"/classes/{guild.ClassId}/pack";
        var deal = Regex.Match(await helper.GetStringAsync(new Uri(table, UriKind.Relative), TestContext.Current.CancellationToken), "value=\"(bagged deal [0-9]+)\"").Groups[1].Value;
        var fabricOfOther = guild.Get<ColourwayStore>().ForClass(guild.OtherClassId)[0].FabricOfLetter["A"];
        await Post(table, $"{table}?handler=Mark", ("classId", $"{guild.OtherClassId}"), ("mark", $"bagged deal {fabricOfOther}"));
        await Post(table, $"{table}?handler=Mark&classId={guild.OtherClassId}", ("mark", $"checked {other.Id} kit"));
        await Post($"/bag/{own.Code}", $"/bag/{own.Code}?handler=Mark", ("code", other.Code), ("mark", $"checked {other.Id} kit"));
        await Post(table, $"{table}?handler=Mark", ("mark", $"checked {other.Id} kit"));
        Assert.Empty(guild.Get<PackingStore>().MarksAfter(guild.OtherClassId, 0));

        // The same calls with what is the helper's own do mark: it is not the call that fails.
        await Post(table, $"{table}?handler=Mark", ("classId", $"{guild.OtherClassId}"), ("mark", deal));
        Assert.NotEmpty(guild.Get<PackingStore>().MarksAfter(guild.ClassId, 0));
        Assert.Empty(guild.Get<PackingStore>().MarksAfter(guild.OtherClassId, 0));
    }

    [Fact]
    public async Task Marks_OnAnotherClassesKits_AreRefused_AndItsMarksCannotBeTakenBack()
    {
        var table = guild.Get<MarkDesk>();
        await table.Mark(guild.OtherClassId, [new NewMark(Guid.NewGuid(), other.Id, KitMark.WholeKit, KitState.Checked, "Runa")]);
        var standing = guild.Get<PackingStore>().MarksAfter(guild.OtherClassId, 0).Single();

        var token = Token().Match(await helper.GetStringAsync(new Uri($"/classes/{guild.ClassId}/pack", UriKind.Relative), TestContext.Current.CancellationToken)).Groups[1].Value;
        using var request = new HttpRequestMessage(HttpMethod.Post, new Uri($"/api/classes/{guild.ClassId}/marks", UriKind.Relative));
        request.Headers.Add("RequestVerificationToken", token);
        request.Content = JsonContent.Create(new
        {
            marks = new object[]
            {
                Phone.Mark(Guid.NewGuid(), other.Id, "kit", "handed-over"),
                Phone.Undo(Guid.NewGuid(), other.Id, standing.Id),
                Phone.Undo(Guid.NewGuid(), own.Id, standing.Id),
                new { id = Guid.NewGuid(), kit = own.Id, who = "Test", undoesSequence = standing.Sequence },
                Phone.Mark(standing.Id, own.Id, "kit", "checked"),
            },
        });
        using var answer = await helper.SendAsync(request, TestContext.Current.CancellationToken);
        var body = await answer.Content.ReadFromJsonAsync<JsonNode>(TestContext.Current.CancellationToken);
        Assert.Equal(5, body!["refused"]!.AsArray().Count);
        var page = $"/classes/{guild.ClassId}/pack";
        await Post(page, $"{page}?handler=Undo&from={standing.Sequence}&to={standing.Sequence}");
        await Post(page, $"{page}?handler=Mark", ("mark", $"undo {own.Id} {standing.Sequence}"));
        await Post(page, $"{page}?handler=Mark", ("mark", $"undo {other.Id} {standing.Sequence}"));
        Assert.Equal(KitState.Checked, table.Table(guild.OtherClassId).Standing(other.Id, KitMark.WholeKit)?.State);
        Assert.Empty(guild.Get<PackingStore>().MarksAfter(guild.ClassId, 0));
    }

    [Fact]
    public async Task Shortages_OfAnotherClass_CannotBeMendedOrWithdrawn()
    {
        var fabric = guild.Get<ColourwayStore>().ForClass(guild.OtherClassId)[0].FabricOfLetter["A"];
        var shortage = new Shortage
        {
            Id = Guid.NewGuid(), ClassId = guild.OtherClassId, KitId = other.Id, Letter = "A", FabricId = fabric, Width = Length.FromInches(4, 1, 2), Height = Length.FromInches(4, 1, 2), Count = 1, Reason = "missing", Who = "Runa",
        };
        Assert.True(await guild.Get<ShortageStore>().Report(shortage));
        await Post($"/bag/{own.Code}", $"/bag/{own.Code}?handler=Mend&id={shortage.Id}", ("from", "recut"));
        await Post($"/bag/{own.Code}", $"/bag/{own.Code}?handler=Withdraw&id={shortage.Id}", ("code", other.Code));
        await Post($"/classes/{guild.ClassId}/recut", $"/classes/{guild.ClassId}/recut?handler=Mend&id={shortage.Id}", ("from", "spare"), ("classId", $"{guild.OtherClassId}"));
        Assert.Null(Assert.Single(guild.Get<ShortageStore>().ForClass(guild.OtherClassId)).MendedAt);
    }

    [Theory]
    [InlineData("/classes/{own}/pack/../../{other}/pack")]
    [InlineData("/classes/{own}/..%2F{other}/pack")]
    [InlineData("/classes/%2B{other}/pack")]
    [InlineData("/CLASSES/{other}/PACK")]
    [InlineData("/classes/0{other}/pack")]
    [InlineData("/classes/{other}/pack/")]
    [InlineData("/classes/{other}/pack?classId={own}")]
    [InlineData("//classes/{other}/pack")]
    [InlineData("/bag/{othercode}?code={owncode}")]
    [InlineData("/api/classes/{other}/marks?classId={own}")]
    [InlineData("/classes/{own}/roster")]
    [InlineData("/classes/{own}/print/handouts")]
    public async Task Addresses_BentTowardsAnotherClass_GiveNothingOfIt(string address)
    {
        foreach (var method in new[] { HttpMethod.Get, HttpMethod.Head, HttpMethod.Post, HttpMethod.Options })
        {
            using var request = new HttpRequestMessage(method, new Uri("http://localhost" + address
                .Replace("{own}", $"{guild.ClassId}", StringComparison.Ordinal).Replace("{other}", $"{guild.OtherClassId}", StringComparison.Ordinal)
                .Replace("{owncode}", own.Code, StringComparison.Ordinal).Replace("{othercode}", other.Code, StringComparison.Ordinal)));
            using var answer = await helper.SendAsync(request, TestContext.Current.CancellationToken);
            Assert.False(answer.IsSuccessStatusCode, $"{method} {request.RequestUri}: {answer.StatusCode}");
            Assert.DoesNotContain(other.Code, await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
        }
    }

    private async Task Post(string page, string address, params (string Name, string Value)[] fields)
    {
        var token = Token().Match(await helper.GetStringAsync(new Uri(page, UriKind.Relative), TestContext.Current.CancellationToken)).Groups[1].Value;
        using var content = new FormUrlEncodedContent([new("__RequestVerificationToken", token), .. fields.Select(field => new KeyValuePair<string, string>(field.Name, field.Value))]);
        using var answer = await helper.PostAsync(new Uri(address, UriKind.Relative), content, TestContext.Current.CancellationToken);
        Assert.NotEqual(HttpStatusCode.InternalServerError, answer.StatusCode);
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" type=\"hidden\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
