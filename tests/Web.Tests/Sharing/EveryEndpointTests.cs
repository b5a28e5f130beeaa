using System.Globalization;
using System.Net;
using System.Text.Json.Nodes;
using KittingBee.Web.Exchange;
using KittingBee.Web.Sharing;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Authorization;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Mvc.RazorPages;
using Microsoft.AspNetCore.Routing;
using Microsoft.AspNetCore.Routing.Patterns;

namespace KittingBee.Web.Tests.Sharing;

/// <summary>
/// Walks every address that the program has, also ones added later, as people who have no business there. What is open is
/// written down here by hand; all else must refuse.
/// </summary>
public sealed class EveryEndpointTests(SharedHost guild) : IClassFixture<SharedHost>
{
    // Open to everybody: the door itself, whether the program works, what only its holder's link opens, and the page that says what went wrong.
    private static readonly string[] ForEverybody = ["error", "healthz", "sign-in", "join/{link}", "own/{link}", "own/{link}/handout"];

    // Open to helpers of the class alone.
    private static readonly string[] ForItsHelpers =
        ["classes/{classId:long}/pack", "classes/{classId:long}/pack/history", "classes/{classId:long}/recut", "bag/{code}", "api/classes/{classId:long}/marks", "api/classes/{classId:long}/shortages", "api/classes/{classId:long}/table"];

    // Open to whoever signed in; they show nothing of a class.
    private static readonly string[] ForAllHelpers = ["bag", "sign-out", "help", "glossary"];

    [Fact]
    public void Program_HasItsAddresses_SoThatTheWalkIsWorthSomething()
    {
        var patterns = Endpoints().Select(endpoint => endpoint.Pattern).ToHashSet();
        Assert.True(patterns.Count > 50, $"Only {patterns.Count} addresses were found.");
        Assert.Superset(new HashSet<string>([.. ForEverybody, .. ForItsHelpers, .. ForAllHelpers]), patterns);
        Assert.Superset(new HashSet<string>(["classes/{classId:long}/roster", "classes/{classId:long}/print/workbook", "openapi/{documentName}.json", "api/cut-list"]), patterns);
    }

    [Fact]
    public void Endpoints_OpenByTheirOwnWord_AreThoseWrittenDown()
    {
        var open = Endpoints().Where(endpoint => endpoint.Endpoint.Metadata.GetMetadata<IAllowAnonymous>() is not null).Select(endpoint => endpoint.Pattern).Distinct();
        Assert.Equal(ForEverybody.Order(), open.Order());
        var named = Endpoints().Where(endpoint => endpoint.Endpoint.Metadata.GetOrderedMetadata<IAuthorizeData>().Any(data => data.Policy == Access.Packing)).Select(endpoint => endpoint.Pattern).Distinct();
        Assert.Equal(ForItsHelpers.Order(), named.Order());
    }

    [Fact]
    public async Task Anonymous_IsRefusedEverywhere()
    {
        using var stranger = guild.Stranger();
        await AssertRefused(stranger, guild.ClassId, [.. ForEverybody]);
    }

    [Fact]
    public async Task HelperOfAnotherClass_IsRefusedEverywhere()
    {
        using var helper = await guild.Helper(guild.OtherClassId);
        await AssertRefused(helper, guild.ClassId, [.. ForEverybody, .. ForAllHelpers]);
    }

    [Fact]
    public async Task Helper_InTheOwnClass_PacksAndNothingElse()
    {
        using var helper = await guild.Helper(guild.ClassId);
        await AssertRefused(helper, guild.ClassId, [.. ForEverybody, .. ForAllHelpers, .. ForItsHelpers]);
        foreach (var address in ForItsHelpers.Concat(ForAllHelpers).Where(address => !address.EndsWith("table", StringComparison.Ordinal) && !address.EndsWith("shortages", StringComparison.Ordinal)))
        {
            Assert.Equal(HttpStatusCode.OK, await Status(helper, HttpMethod.Get, Filled(address, guild.ClassId)));
        }
    }

    [Fact]
    public async Task StudentOfAnotherClass_IsRefusedEverywhere()
    {
        using var student = guild.Stranger("192.168.7.40");
        var kit = guild.Get<KitStore>().ForClass(guild.OtherClassId)[0];
        var link = (await guild.Get<KitLinks>().Of(guild.OtherClassId))[kit.Id];
        Assert.Equal(HttpStatusCode.OK, await Status(student, HttpMethod.Get, $"/own/{link}"));
        await AssertRefused(student, guild.ClassId, [.. ForEverybody]);
        // From another telephone: after walking all addresses, the first may have asked too fast.
        using var other = guild.Stranger("192.168.7.41");
        foreach (var address in new[] { "/own/{0}", "/own/{0}/handout" })
        {
            // A bag's code, a number or a link of one's own making opens nothing.
            foreach (var guess in new[] { kit.Code, $"{kit.Id}", Secrets.Link() })
            {
                Assert.Equal(HttpStatusCode.NotFound, await Status(other, HttpMethod.Get, string.Format(CultureInfo.InvariantCulture, address, guess)));
            }
        }
    }

    [Fact]
    public async Task Teacher_GettingEveryAddress_ChangesNothing()
    {
        using var teacher = await guild.Teacher();
        var before = Stored();
        foreach (var pattern in Endpoints().Select(endpoint => endpoint.Pattern).Distinct())
        {
            using var answer = await Ask(teacher, "GET", Filled(pattern, guild.ClassId));
            Assert.False(answer.StatusCode == HttpStatusCode.InternalServerError, pattern);
        }

        Assert.Equal(before, Stored());
    }

    // Whatever a guild's file has, except plans: those are worked out when they are asked for, and kept until what they rest on changes.
    private string Stored()
    {
        var tables = JsonNode.Parse(guild.Get<FileWriter>().Guild(people: true))!["tables"]!.AsObject();
        tables.Remove("plan");
        return tables.ToJsonString();
    }

    private async Task AssertRefused(HttpClient client, long classId, IReadOnlyCollection<string> open)
    {
        var wrong = new List<string>();
        foreach (var (endpoint, pattern) in Endpoints().Where(endpoint => !open.Contains(endpoint.Pattern)))
        {
            var isPage = endpoint.Metadata.GetMetadata<PageActionDescriptor>() is not null;
            var methods = isPage ? ["GET", "POST"] : endpoint.Metadata.GetMetadata<HttpMethodMetadata>()?.HttpMethods ?? ["GET"];
            foreach (var method in methods)
            {
                using var answer = await Ask(client, method, Filled(pattern, classId));
                var refused = answer.StatusCode is HttpStatusCode.Unauthorized or HttpStatusCode.Forbidden
                    || (answer.StatusCode == HttpStatusCode.Redirect && answer.Headers.Location!.ToString() is var to && (to.StartsWith("/sign-in", StringComparison.Ordinal) || (pattern.Length == 0 && to.EndsWith("/pack", StringComparison.Ordinal))));
                if (!refused)
                {
                    wrong.Add($"{method} {pattern}: {(int)answer.StatusCode} {answer.Headers.Location}");
                }
            }
        }

        Assert.True(wrong.Count == 0, string.Join('\n', wrong));
    }

    private static async Task<HttpResponseMessage> Ask(HttpClient client, string method, string address)
    {
        while (true)
        {
            using var request = new HttpRequestMessage(new HttpMethod(method), new Uri(address, UriKind.Relative));
            var answer = await client.SendAsync(request, HttpCompletionOption.ResponseHeadersRead, TestContext.Current.CancellationToken);
            if (answer.StatusCode != HttpStatusCode.TooManyRequests)
            {
                return answer;
            }

            // The walk is faster than any device may be.
            answer.Dispose();
            await Task.Delay(TimeSpan.FromSeconds(1), TestContext.Current.CancellationToken);
        }
    }

    private IEnumerable<(Endpoint Endpoint, string Pattern)> Endpoints() => guild.Get<EndpointDataSource>().Endpoints.OfType<RouteEndpoint>()
        .Select(endpoint => ((Endpoint)endpoint, (endpoint.RoutePattern.RawText ?? "").TrimStart('/')));

    /// <summary>An address with something real in each of its places, so that only the rule stands in the way.</summary>
    private string Filled(string pattern, long classId)
    {
        var kit = guild.Get<KitStore>().ForClass(classId)[0];
        var address = string.Join('/', RoutePatternFactory.Parse(pattern).PathSegments.Select(segment => string.Concat(segment.Parts.Select(part => part switch
        {
            RoutePatternLiteralPart literal => literal.Content,
            RoutePatternParameterPart { Name: "classId" } => classId.ToString(CultureInfo.InvariantCulture),
            RoutePatternParameterPart { Name: "code" } => kit.Code,
            RoutePatternParameterPart { Name: "documentName" } => "v1",
            RoutePatternParameterPart => "1",
            _ => part.PartKind == RoutePatternPartKind.Separator ? ((RoutePatternSeparatorPart)part).Content : "",
        }))));
        return "/" + address;
    }

    private static async Task<HttpStatusCode> Status(HttpClient client, HttpMethod method, string address)
    {
        using var answer = await Ask(client, method.Method, address);
        return answer.StatusCode;
    }
}
