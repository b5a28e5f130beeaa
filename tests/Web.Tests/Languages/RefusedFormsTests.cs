using System.Net;
using System.Text.RegularExpressions;
using KittingBee.Web.Tests.Face;

namespace KittingBee.Web.Tests.Languages;

/// <summary>What a form says when it refuses what was typed is said in the reader's language too.</summary>
public sealed partial class RefusedFormsTests(DemonstrationHost guild) : IClassFixture<DemonstrationHost>
{
    public static TheoryData<string> Pages => FaceTests.Pages;

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Page_SaysWhyItRefuses(string address)
    {
        await UnsaidTests.SpeakMadeUp(guild);
        using var client = guild.CreateClient();
        var page = new Uri(guild.At(address)).PathAndQuery;
        using var first = await client.GetAsync(new Uri(page, UriKind.Relative), TestContext.Current.CancellationToken);
        foreach (Match form in Form().Matches(await first.Content.ReadAsStringAsync(TestContext.Current.CancellationToken)))
        {
            var fields = Field().Matches(form.Value).Select(field => field.Value).Where(field => Attribute(field, "name") is not null && Attribute(field, "type") is not ("checkbox" or "radio" or "file" or "submit")).ToList();
            if (fields.All(IsKept))
            {
                continue;
            }

            var to = new Uri(new Uri(guild.Address, page), Attribute(form.Value.Split('>')[0], "action") ?? page).PathAndQuery;
            using var typed = new FormUrlEncodedContent(fields.GroupBy(field => Attribute(field, "name")!).ToDictionary(same => same.Key, same => IsKept(same.First()) ? Attribute(same.First(), "value") ?? "" : "?!"));
            using var answer = await client.PostAsync(new Uri(to, UriKind.Relative), typed, TestContext.Current.CancellationToken);
            var unsaid = MadeUpLanguage.Unsaid(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), UnsaidTests.Own(guild)).ToList();
            Assert.True(unsaid.Count == 0, $"{address} sent to {to} answers {(int)answer.StatusCode} with what was not said:\n{string.Join('\n', unsaid)}");
        }
    }

    private static bool IsKept(string field) => Attribute(field, "type") == "hidden";

    private static string? Attribute(string tag, string name) => Regex.Match(tag, $" {name}=\"([^\"]*)\"") is { Success: true } match ? WebUtility.HtmlDecode(match.Groups[1].Value) : null;

    [GeneratedRegex("<form[^>]*method=\"post\".*?</form>", RegexOptions.Singleline)]
    private static partial Regex Form();

    [GeneratedRegex("<(?:input|textarea|select)[^>]*>")]
    private static partial Regex Field();
}
