using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.RegularExpressions;
using KittingBee.Planning.Measures;
using KittingBee.Web.Settling;
using KittingBee.Web.Storage;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Packing;

/// <summary>Photographed notes of leftovers.</summary>
public sealed partial class PhotoTests(GuildHost guild, Browser browser) : IClassFixture<GuildHost>, IClassFixture<Browser>
{
    // Two red pixels; made from the format’s text (ISO/IEC 15948), and shown by the browser below.
    private static readonly byte[] Png = Convert.FromBase64String("iVBORw0KGgoAAAANSUhEUgAAAAIAAAABCAIAAAB7QOjdAAAADUlEQVR4nGP4z8AARAAI/gH/xp559wAAAABJRU5ErkJggg==");

    private readonly Uri address = guild.Listen();

    // The marks at the start of each format: JPEG SOI (ITU-T T.81, B.1.1.3), PNG signature (ISO/IEC 15948, 5.2), WebP container (RFC 9649, 2.4).
    [Theory]
    [InlineData("FFD8FFE000104A464946", "image/jpeg")]
    [InlineData("89504E470D0A1A0A0000000D", "image/png")]
    [InlineData("524946461A000000574542505650384C", "image/webp")]
    [InlineData("524946461A00000057415645", null)]
    [InlineData("474946383961", null)]
    [InlineData("3C737667206F6E6C6F61643D", null)]
    [InlineData("FFD8", null)]
    [InlineData("", null)]
    public void MediaTypeOf_TheFirstBytes_NamesTheFormat(string hex, string? type) =>
        Assert.Equal(type, PhotoFile.MediaTypeOf(Convert.FromHexString(hex)));

    [Fact]
    public async Task Photo_SentWithALeftover_IsShownServedAsAPictureAndRemoved()
    {
        var (id, fabric, client) = await NewClass();
        await Send(client, id, "settle?handler=Left", Png, "note.svg", ("Form.FabricId", $"{fabric}"), ("Form.Length", "9"), ("Form.Width", "21"));
        var left = Assert.Single(guild.Get<SettlingStore>().Leftovers(id)).Id;
        var page = await client.GetStringAsync(At(id, "settle"), TestContext.Current.CancellationToken);
        Assert.Contains($"<img src=\"/classes/{id}/settle/photos/{left}\" alt=\"Photographed note: Oat, ", page, StringComparison.Ordinal);

        using var picture = await client.GetAsync(At(id, $"settle/photos/{left}"), TestContext.Current.CancellationToken);
        Assert.Equal(Png, await picture.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken));
        Assert.Equal("image/png", picture.Content.Headers.ContentType?.ToString());
        Assert.Equal($"inline; filename=\"note-{left}.png\"", picture.Content.Headers.ContentDisposition?.ToString());
        Assert.Equal("nosniff", Assert.Single(picture.Headers.GetValues("X-Content-Type-Options")));
        Assert.True(picture.Headers.CacheControl is { Private: true, NoStore: true });

        // Not by way of another class.
        var other = await ExampleClass.Store(guild, 1);
        using var elsewhere = await client.GetAsync(At(other, $"settle/photos/{left}"), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.NotFound, elsewhere.StatusCode);

        await Send(client, id, $"settle/photos/{left}?handler=Remove", []);
        Assert.Null(guild.Get<PhotoStore>().Find(id, left));
        Assert.Single(guild.Get<SettlingStore>().Leftovers(id));
    }

    [Fact]
    public async Task Photo_ThatIsNone_IsRefusedWithTheRemedyAndNothingIsStored()
    {
        var (id, fabric, client) = await NewClass();
        var words = await Send(client, id, "settle?handler=Left", Encoding.ASCII.GetBytes("<svg onload=alert(1)>"), "note.png", ("Form.FabricId", $"{fabric}"), ("Form.Length", "9"));
        Assert.Contains("“note.png” is no JPEG, PNG or WebP picture. Save it as one of these, and choose it again.", words, StringComparison.Ordinal);
        Assert.Contains("value=\"9\"", words, StringComparison.Ordinal);
        var large = new byte[8_000_001];
        Png.CopyTo(large, 0);
        Assert.Contains("The photo has 8.0 MB; 8 MB is the most.", await Send(client, id, "settle?handler=Left", large, "note.png", ("Form.FabricId", $"{fabric}"), ("Form.Length", "9")), StringComparison.Ordinal);
        Assert.Empty(guild.Get<SettlingStore>().Leftovers(id));
    }

    [Fact]
    public async Task Photo_PutLaterAndForgotten_LivesAsLongAsItMay()
    {
        var (id, fabric, client) = await NewClass();
        var left = await guild.Get<SettlingStore>().AddLeftover(new Leftover { ClassId = id, FabricId = fabric, Width = Length.FromInches(21), Length = Length.FromInches(9) });
        Assert.Contains("No photo was chosen", await Send(client, id, $"settle/photos/{left}", []), StringComparison.Ordinal);
        Assert.Contains("The photo is with its leftover.", await Send(client, id, $"settle/photos/{left}", Png), StringComparison.Ordinal);

        // A copy of the database has it too.
        var copy = Path.Combine(Directory.CreateTempSubdirectory("kitting-bee-copy-").FullName, "copy.db");
        guild.Get<Database>().CopyTo(copy);
        using (var database = new Database(copy, TimeProvider.System))
        {
            Assert.Equal(Png, new PhotoStore(database).Find(id, left)?.Picture);
        }

        // Taken back with its leftover, and put back with it.
        await guild.Get<SettlingStore>().RemoveLeftover(id, left);
        Assert.Null(guild.Get<PhotoStore>().Find(id, left));
        await guild.Get<SettlingStore>().PutBackLeftover(id, left);
        Assert.NotNull(guild.Get<PhotoStore>().Find(id, left));

        // A closed class shows it and changes it no more, until its people are forgotten.
        await guild.Get<ClosingStore>().Close(id, guild.Get<ClassStore>().Find(id)!.Version, "{}", [], forget: false);
        Assert.False(await guild.Get<PhotoStore>().Remove(id, left));
        Assert.False(await guild.Get<PhotoStore>().Put(id, left, new Photo("image/png", Png)));
        Assert.NotNull(guild.Get<PhotoStore>().Find(id, left));
        await guild.Get<ClosingStore>().Forget(id);
        Assert.Null(guild.Get<PhotoStore>().Find(id, left));
    }

    [Fact]
    public async Task Photo_ChosenInABrowser_IsMadeSmallAndLosesWhatThePhoneWroteIntoIt()
    {
        var (id, fabric, _) = await NewClass();
        var left = await guild.Get<SettlingStore>().AddLeftover(new Leftover { ClassId = id, FabricId = fabric, Width = Length.FromInches(21), Length = Length.FromInches(9) });
        var page = await browser.NewPage(360, 740);
        await page.GotoAsync($"{address}classes/{id}/settle");
        await page.Locator(".addphoto summary").ClickAsync();
        await page.Locator("[data-photo]").Last.SetInputFilesAsync(new FilePayload { Name = "note.png", MimeType = "image/png", Buffer = Png });
        await page.WaitForFunctionAsync("() => document.querySelector('.addphoto input').files[0]?.name === 'note.jpg'");
        await page.Locator(".addphoto button").ClickAsync();
        await Assertions.Expect(page.Locator(".photo img")).ToBeVisibleAsync();
        Assert.Equal(2, await page.Locator(".photo img").EvaluateAsync<int>("async image => { image.loading = 'eager'; await image.decode(); return image.naturalWidth; }"));
        Assert.Equal("image/jpeg", guild.Get<PhotoStore>().Find(id, left)?.MediaType);
        Assert.True(await page.EvaluateAsync<bool>("() => document.documentElement.scrollWidth <= 360"), "The page is wider than a 360 px screen.");
    }

    private static Uri At(long id, string page) => new($"/classes/{id}/{page}", UriKind.Relative);

    private static async Task<string> Send(HttpClient client, long id, string where, byte[] photo, string name = "note.png", params (string Name, string Value)[] typed)
    {
        var page = await client.GetStringAsync(At(id, "settle"), TestContext.Current.CancellationToken);
        using var form = new MultipartFormDataContent();
        foreach (var (field, value) in typed.Append(("__RequestVerificationToken", Token().Match(page).Groups[1].Value)))
        {
            form.Add(new StringContent(value), field);
        }

        form.Add(new ByteArrayContent(photo) { Headers = { ContentType = new MediaTypeHeaderValue("image/png") } }, "photo", name);
        using var response = await client.PostAsync(At(id, where), form, TestContext.Current.CancellationToken);
        return WebUtility.HtmlDecode(await response.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
    }

    private async Task<(long Id, long Fabric, HttpClient Client)> NewClass()
    {
        var id = await ExampleClass.Store(guild, 1);
        return (id, guild.Get<ColourwayStore>().ForClass(id)[0].FabricOfLetter["A"], guild.CreateClient());
    }

    [GeneratedRegex("name=\"__RequestVerificationToken\" type=\"hidden\" value=\"([^\"]+)\"")]
    private static partial Regex Token();
}
