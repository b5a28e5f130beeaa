using System.Net;
using System.Text.RegularExpressions;
using KittingBee.Web.Sharing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Tests.Sharing;

/// <summary>Coming in, staying in, and being shown out.</summary>
public sealed partial class SignInTests : IAsyncLifetime
{
    private readonly SharedHost guild = new();

    public ValueTask InitializeAsync() => guild.InitializeAsync();

    public ValueTask DisposeAsync() => guild.DisposeAsync();

    [Fact]
    public async Task Teacher_WithThePassword_GetsEverythingAndACookieThatScriptsCannotRead()
    {
        using var client = guild.Stranger();
        var (wrong, html) = await new FormClient(client).Post("/sign-in", "/sign-in?handler=Teacher", Typed(("Password", "four plain words")));
        Assert.Equal(HttpStatusCode.BadRequest, wrong);
        Assert.Contains("not the teacher’s password", WebUtility.HtmlDecode(html), StringComparison.Ordinal);

        using var answer = await Send(client, "/sign-in", "/sign-in?handler=Teacher", ("Password", SharedHost.Password));
        var cookie = Assert.Single(answer.Headers.GetValues("Set-Cookie"), cookie => cookie.StartsWith("kitting-bee-device=", StringComparison.Ordinal));
        Assert.Contains("httponly", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("samesite=lax", cookie, StringComparison.OrdinalIgnoreCase);
        Assert.True(Value(cookie).Length >= 43, "256 bits are 43 letters of base 64.");
        Assert.Equal(HttpStatusCode.OK, await Status(client, "/classes"));
        Assert.Equal(HttpStatusCode.OK, await Status(client, $"/classes/{guild.ClassId}/roster"));
    }

    [Fact]
    public async Task SigningInAgain_GivesANewTokenAndEndsTheOldOne()
    {
        using var client = guild.Stranger();
        using var first = await Send(client, "/sign-in", "/sign-in?handler=Teacher", ("Password", SharedHost.Password));
        using var second = await Send(client, "/sign-in", "/sign-in?handler=Teacher", ("Password", SharedHost.Password));
        var (old, now) = (Token(first), Token(second));
        Assert.NotEqual(old, now);
        Assert.Null(guild.Get<Devices>().Find(old));
        Assert.NotNull(guild.Get<Devices>().Find(now));
        Assert.Equal(0, await guild.Get<Database>().Write(session => (int)session.Get<long>("SELECT count(*) FROM share_device WHERE token_hash IN (@old, @now)", new { old, now })));
    }

    [Fact]
    public async Task SignOut_EndsTheDeviceItself_NotOnlyItsCookie()
    {
        using var client = guild.Stranger();
        using var signedIn = await Send(client, "/sign-in", "/sign-in?handler=Teacher", ("Password", SharedHost.Password));
        Assert.Contains(">Sign out</button>", await client.GetStringAsync(new Uri("/", UriKind.Relative), TestContext.Current.CancellationToken), StringComparison.Ordinal);
        using var signedOut = await Send(client, "/", "/sign-out");
        Assert.Equal("/sign-in", signedOut.Headers.Location?.ToString());

        // Somebody who kept the cookie has nothing.
        using var thief = guild.Stranger();
        thief.DefaultRequestHeaders.Add("Cookie", $"kitting-bee-device={Token(signedIn)}");
        Assert.Equal(HttpStatusCode.Redirect, await Status(thief, "/classes"));
    }

    [Fact]
    public async Task Machine_WhileShared_SignsInLikeEverybody()
    {
        using var client = guild.Stranger("127.0.0.1");
        Assert.Equal(HttpStatusCode.Redirect, await Status(client, "/classes"));
        Assert.Equal(HttpStatusCode.Redirect, await Status(client, "/settings/sharing"));
    }

    [Fact]
    public async Task Helper_ByCode_JoinsOneClass_UntilTheCodeIsOverOrWithdrawn()
    {
        var join = await guild.JoinCode(guild.ClassId);
        Assert.Equal(Secrets.CodeLength, join.Code.Length);
        using var helper = guild.Stranger();
        using var joined = await Send(helper, "/sign-in", "/sign-in?handler=Helper", ("Code", $" {Secrets.Shown(join.Code).ToLowerInvariant()} "), ("Name", "Tove"));
        Assert.Equal($"/classes/{guild.ClassId}/pack", joined.Headers.Location?.ToString());
        Assert.Equal(HttpStatusCode.OK, await Status(helper, $"/classes/{guild.ClassId}/pack"));
        var home = await helper.GetAsync(new Uri("/", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal($"/classes/{guild.ClassId}/pack", home.Headers.Location?.ToString());

        using var teacher = await guild.Teacher();
        using var withdrawn = await Send(teacher, "/settings/sharing", $"/settings/sharing?handler=Withdraw&id={guild.ClassId}");
        Assert.Equal(HttpStatusCode.Redirect, withdrawn.StatusCode);
        using var late = guild.Stranger("192.168.7.31");
        using var refused = await Send(late, "/sign-in", "/sign-in?handler=Helper", ("Code", join.Code), ("Name", "Runa"));
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        Assert.Equal("/sign-in", (await late.GetAsync(new Uri($"/join/{join.Link}", UriKind.Relative), TestContext.Current.CancellationToken)).Headers.Location?.ToString());
        Assert.Equal(HttpStatusCode.OK, await Status(helper, $"/classes/{guild.ClassId}/pack"));

        // A code whose hours are over opens nothing, although it is still stored.
        await guild.Get<SharingDesk>().MakeJoinCode(guild.ClassId, TimeSpan.FromHours(3), DateTimeOffset.UtcNow.AddHours(-4), new Microsoft.AspNetCore.Http.DefaultHttpContext());
        Assert.DoesNotContain(guild.Get<ShareStore>().Joins(), code => code.ClassId == guild.ClassId);
    }

    [Fact]
    public async Task Helper_ByScannedLink_SaysANameAndIsIn()
    {
        var join = await guild.JoinCode(guild.ClassId);
        using var helper = guild.Stranger();
        using var unnamed = await Send(helper, $"/join/{join.Link}", $"/join/{join.Link}", ("Name", " "));
        Assert.Equal(HttpStatusCode.BadRequest, unnamed.StatusCode);
        using var joined = await Send(helper, $"/join/{join.Link}", $"/join/{join.Link}", ("Name", "Runa"));
        Assert.Equal($"/classes/{guild.ClassId}/pack", joined.Headers.Location?.ToString());
        Assert.Contains(guild.Get<Devices>().All, device => device is { Role: Role.Helper, Name: "Runa" } && device.ClassId == guild.ClassId);
    }

    [Fact]
    public async Task Helper_LooksForABagOfAnotherClass_HearsTheSameAsForNone()
    {
        using var helper = await guild.Helper(guild.ClassId);
        var own = guild.Get<KitStore>().ForClass(guild.ClassId)[0];
        var other = guild.Get<KitStore>().ForClass(guild.OtherClassId)[0];
        Assert.Equal(HttpStatusCode.Redirect, await Status(helper, $"/bag?code={own.Code}"));
        var (status, html) = await new FormClient(helper).Get($"/bag?code={other.Code}");
        Assert.Equal(HttpStatusCode.NotFound, status);
        var (_, none) = await new FormClient(helper).Get("/bag?code=ZZZZZZ");
        Assert.Equal(FormClient.Words(none).Replace("ZZZZZZ", "", StringComparison.Ordinal), FormClient.Words(html).Replace(other.Code, "", StringComparison.Ordinal));
        Assert.Equal(HttpStatusCode.Forbidden, await Status(helper, $"/bag/{other.Code}"));
        Assert.Equal(HttpStatusCode.Forbidden, await Status(helper, "/bag/ZZZZZZ"));
    }

    [Fact]
    public async Task Helper_OnThePackingTable_SeesNoWayToWhatIsNotTheirs()
    {
        using var helper = await guild.Helper(guild.ClassId);
        var kit = guild.Get<KitStore>().ForClass(guild.ClassId)[0];
        foreach (var page in new[] { $"/classes/{guild.ClassId}/pack", $"/bag/{kit.Code}", $"/classes/{guild.ClassId}/recut", $"/classes/{guild.ClassId}/pack/history", "/bag" })
        {
            var html = await helper.GetStringAsync(new Uri(page, UriKind.Relative), TestContext.Current.CancellationToken);
            foreach (var link in Links().Matches(html).Select(match => WebUtility.HtmlDecode(match.Groups[1].Value)).Where(link => link.StartsWith('/') && link.Length > 1 && !link.Contains(".css", StringComparison.Ordinal) && !link.Contains(".svg", StringComparison.Ordinal)).Distinct())
            {
                Assert.True(await Status(helper, link) == HttpStatusCode.OK, $"{page} leads a helper to {link}.");
            }
        }
    }

    [Fact]
    public async Task CutOff_EndsTheDevice_AndItsOpenStream_AtOnce()
    {
        using var helper = await guild.Helper(guild.ClassId, "Tove");
        var device = guild.Get<Devices>().All.Single(device => device.Name == "Tove");
        using var stream = await helper.GetAsync(new Uri($"/api/classes/{guild.ClassId}/table", UriKind.Relative), HttpCompletionOption.ResponseHeadersRead, TestContext.Current.CancellationToken);
        Assert.Equal("text/event-stream", stream.Content.Headers.ContentType?.MediaType);
        using var reader = new StreamReader(await stream.Content.ReadAsStreamAsync(TestContext.Current.CancellationToken));
        Assert.Equal("retry: 1000", await reader.ReadLineAsync(TestContext.Current.CancellationToken));

        using var teacher = await guild.Teacher();
        Assert.Contains("Tove", await teacher.GetStringAsync(new Uri("/settings/sharing", UriKind.Relative), TestContext.Current.CancellationToken), StringComparison.Ordinal);
        using var cut = await Send(teacher, "/settings/sharing", $"/settings/sharing?handler=Cut&id={device.Id}");
        Assert.Equal(HttpStatusCode.Redirect, cut.StatusCode);

        // The stream ends: by its end or by the broken connection, but it does not go on.
        await Assert.ThrowsAnyAsync<Exception>(async () =>
        {
            while (await reader.ReadLineAsync(TestContext.Current.CancellationToken).AsTask().WaitAsync(TimeSpan.FromSeconds(60), TestContext.Current.CancellationToken) is not null)
            {
            }

            throw new EndOfStreamException();
        }).ContinueWith(ended => Assert.IsNotType<TimeoutException>(ended.Result), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.Redirect, await Status(helper, $"/classes/{guild.ClassId}/pack"));
        Assert.Equal(HttpStatusCode.Unauthorized, await Status(helper, $"/api/classes/{guild.ClassId}/marks"));
        Assert.Contains(guild.Get<SecurityLog>().Latest(), noted => noted.What == $"Device {device.Id} was cut off");
    }

    [Fact]
    public async Task Password_Changed_AsksForTheOldOne_AndSignsOtherTeachersOut()
    {
        using var one = await guild.Teacher();
        using var two = await guild.Teacher("192.168.7.3");
        using var refused = await Send(one, "/settings/sharing", "/settings/sharing?handler=Password", ("OldPassword", "wrong"), ("Password", "entirely other words"));
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
        using var changed = await Send(one, "/settings/sharing", "/settings/sharing?handler=Password", ("OldPassword", SharedHost.Password), ("Password", "entirely other words"));
        Assert.Equal(HttpStatusCode.Redirect, changed.StatusCode);
        Assert.Equal(HttpStatusCode.OK, await Status(one, "/classes"));
        Assert.Equal(HttpStatusCode.Redirect, await Status(two, "/classes"));
        Assert.True(await guild.Get<TeacherPassword>().IsRight("entirely other words"));
    }

    [Fact]
    public async Task Password_GuessedAtFromASignedInDevice_IsMadeToWaitAsAtTheDoor()
    {
        using var teacher = await guild.Teacher("192.168.7.9");
        foreach (var (page, form, field) in new[] { ("/settings/sharing", "/settings/sharing?handler=Password", "OldPassword"), ("/sign-in", "/sign-in?handler=Teacher", "Password") })
        {
            // However slow the machine is, the wait outgrows it.
            HttpStatusCode status;
            var guesses = 0;
            do
            {
                using var answer = await Send(teacher, page, form, (field, "a guess"));
                status = answer.StatusCode;
                Assert.Equal(status == HttpStatusCode.TooManyRequests, answer.Headers.RetryAfter is not null);
                Assert.Contains(status == HttpStatusCode.TooManyRequests ? "Too many tries went wrong" : "That is not the", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
            }
            while (status == HttpStatusCode.BadRequest && ++guesses < 20);

            Assert.Equal(HttpStatusCode.TooManyRequests, status);
        }

        Assert.Contains(guild.Get<SecurityLog>().Latest(), noted => noted is { What: "Too many wrong tries: made to wait", Address: "192.168.7.9" });
    }

    [Fact]
    public async Task Stop_SignsEverybodyOut_AndVoidsTheCodes()
    {
        using var helper = await guild.Helper(guild.ClassId);
        using var teacher = await guild.Teacher("127.0.0.1");
        using var stopped = await Send(teacher, "/settings/sharing", "/settings/sharing?handler=Stop");
        Assert.Equal(HttpStatusCode.Redirect, stopped.StatusCode);
        Assert.Empty(guild.Get<Devices>().All);
        Assert.Empty(guild.Get<ShareStore>().Joins());
        Assert.Equal(HttpStatusCode.OK, await Status(teacher, "/classes"));
        Assert.NotEqual(HttpStatusCode.OK, await Status(helper, $"/classes/{guild.ClassId}/pack"));
    }

    [Fact]
    public async Task Events_AreWrittenDownInUtc_WithoutWhatWasTyped()
    {
        using var client = guild.Stranger("192.168.7.66");
        await Send(client, "/sign-in", "/sign-in?handler=Teacher", ("Password", "a guess\nthe teacher signed in"));
        await Send(client, "/sign-in", "/sign-in?handler=Helper", ("Code", "ABCD\r\nEFGH"), ("Name", "Mallory\nfaked line"));
        var events = guild.Get<SecurityLog>().Latest();
        Assert.Contains(events, noted => noted is { What: "A password was wrong", Address: "192.168.7.66" } && noted.HappenedAt.EndsWith('Z'));
        Assert.Contains(events, noted => noted is { What: "A join code was wrong or over", Address: "192.168.7.66" });
        Assert.DoesNotContain(events, noted => noted.What.Contains("guess", StringComparison.Ordinal) || noted.What.Contains("Mallory", StringComparison.Ordinal) || noted.What.Contains('\n'));
    }

    private static Dictionary<string, string> Typed(params (string Name, string Value)[] fields) => fields.ToDictionary(field => field.Name, field => field.Value);

    private static string Token(HttpResponseMessage answer) => Value(answer.Headers.GetValues("Set-Cookie").Last(cookie => cookie.StartsWith("kitting-bee-device=", StringComparison.Ordinal)));

    private static string Value(string cookie) => cookie.Split(';')[0].Split('=')[1];

    private static async Task<HttpStatusCode> Status(HttpClient client, string address)
    {
        using var answer = await client.GetAsync(new Uri(address, UriKind.Relative), HttpCompletionOption.ResponseHeadersRead, TestContext.Current.CancellationToken);
        return answer.StatusCode;
    }

    private static async Task<HttpResponseMessage> Send(HttpClient client, string page, string address, params (string Name, string Value)[] fields)
    {
        var html = await client.GetStringAsync(new Uri(page, UriKind.Relative), TestContext.Current.CancellationToken);
        var token = FormToken().Match(html).Groups[1].Value;
        using var content = new FormUrlEncodedContent([new("__RequestVerificationToken", token), .. fields.Select(field => new KeyValuePair<string, string>(field.Name, field.Value))]);
        return await client.PostAsync(new Uri(address, UriKind.Relative), content, TestContext.Current.CancellationToken);
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" type=\"hidden\" value=\"([^\"]+)\"")]
    private static partial Regex FormToken();

    [GeneratedRegex("<a[^>]*href=\"([^\"]+)\"")]
    private static partial Regex Links();
}
