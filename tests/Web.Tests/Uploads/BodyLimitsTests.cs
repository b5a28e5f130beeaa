using System.Net;
using System.Net.Http.Headers;
using System.Text;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Pages;

namespace KittingBee.Web.Tests.Uploads;

/// <summary>What is too large is refused by the real server, and the page stays.</summary>
public sealed class BodyLimitsTests : IDisposable
{
    private readonly GuildHost guild = new();

    [Theory]
    [InlineData("/settings", 5_000_000, "4.0 MB is the most here")]
    [InlineData("/blocks?handler=Import", 9_000_000, "4.0 MB is the most here")]
    [InlineData("/settings/files", 70_000_000, "MB is the most here")]
    [InlineData("/classes/1/settle/workbook", 9_000_000, "6.0 MB is the most here")]
    [InlineData("/classes/1/roster/import", 14_000_000, "MB is the most here")]
    public async Task Form_ThatIsTooLarge_IsAnsweredWithItsOwnPageAndTheReason(string address, int bytes, string said)
    {
        var at = guild.Listen();
        await SampleGuild.Fill(guild, students: 1);
        using var client = new HttpClient { BaseAddress = at };
        using var part = new ByteArrayContent(new byte[bytes]);
        part.Headers.ContentType = new MediaTypeHeaderValue("application/octet-stream");
        using var form = new MultipartFormDataContent { { part, "file", "large.bin" } };
        using var answer = await client.PostAsync(new Uri(address, UriKind.Relative), form, TestContext.Current.CancellationToken);
        var text = WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        Assert.Contains(said, text, StringComparison.Ordinal);
        Assert.Contains("Nothing of it was stored", text, StringComparison.Ordinal);
        Assert.Contains("<form", text, StringComparison.Ordinal);
        Assert.Single(guild.Get<RosterStore>().ForClass(1));
    }

    [Theory]
    [InlineData("/settings")]
    [InlineData("/api/cut-list")]
    [InlineData("/blocks/check")]
    public async Task Body_WithoutALength_IsCutOffAtTheLimit(string address)
    {
        var at = guild.Listen();
        using var client = new HttpClient { BaseAddress = at };
        using var request = new HttpRequestMessage(HttpMethod.Post, address) { Content = new StreamContent(new Endless(8_000_000)) };
        request.Headers.TransferEncodingChunked = true;
        request.Content.Headers.ContentType = new MediaTypeHeaderValue(address == "/settings" ? "application/x-www-form-urlencoded" : "application/json");
        try
        {
            using var answer = await client.SendAsync(request, TestContext.Current.CancellationToken);
            Assert.True(answer.StatusCode is HttpStatusCode.RequestEntityTooLarge or HttpStatusCode.BadRequest, $"{answer.StatusCode}");
        }
        catch (HttpRequestException)
        {
            // The server closed the line on it.
        }

        using var alive = await client.GetAsync(new Uri("/settings", UriKind.Relative), TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.OK, alive.StatusCode);
    }

    // RFC 6266, section 4.3 and appendix D: an ASCII name for old readers and the whole one in filename*, which RFC 8187 encodes.
    [Fact]
    public async Task Download_OfAnOddTitle_HasASafeNameInBothForms()
    {
        var classId = await SampleGuild.Fill(guild, students: 1);
        var classes = guild.Get<ClassStore>();
        await classes.Save(classes.Find(classId)! with { Title = "../..\\Żaneta’s \"Star\"; filename=evil.exe" });
        using var pages = new PageClient(guild);
        foreach (var address in new[] { $"/classes/{classId}/roster/file", $"/classes/{classId}/print/workbook", $"/classes/{classId}/calendar", $"/settings/files?handler=Class&id={classId}" })
        {
            using var answer = await pages.Http.GetAsync(new Uri(address, UriKind.Relative), TestContext.Current.CancellationToken);
            Assert.Equal(HttpStatusCode.OK, answer.StatusCode);
            var disposition = answer.Content.Headers.ContentDisposition!;
            Assert.Equal("attachment", disposition.DispositionType);
            Assert.StartsWith("Żaneta-s-Star-filename-evil-exe", disposition.FileNameStar, StringComparison.Ordinal);
            Assert.DoesNotContain(disposition.FileName!.Trim('"'), letter => letter is '/' or '\\' or '"' or ';' || letter > 126);
        }
    }

    // Windows keeps CON, LPT1 and their like for devices, whatever follows the dot (its page "Naming Files, Paths, and Namespaces", from memory).
    [Theory]
    [InlineData("CON", "CON-class.csv")]
    [InlineData("lpt1", "lpt1-class.csv")]
    [InlineData("...", "kitting-bee.csv")]
    [InlineData("a\r\nSet-Cookie: b", "a-Set-Cookie-b.csv")]
    public void Name_IsOneThatEverySystemTakes(string title, string name) => Assert.Equal(name, FileNames.For(title, "csv"));

    public void Dispose() => guild.Dispose();

    private sealed class Endless(long left) : Stream
    {
        private readonly byte[] letters = Encoding.ASCII.GetBytes(new string('a', 8192));

        public override bool CanRead => true;

        public override bool CanSeek => false;

        public override bool CanWrite => false;

        public override long Length => throw new NotSupportedException();

        public override long Position { get => throw new NotSupportedException(); set => throw new NotSupportedException(); }

        public override int Read(byte[] buffer, int offset, int count)
        {
            var take = (int)Math.Min(Math.Min(count, left), letters.Length);
            letters.AsSpan(0, take).CopyTo(buffer.AsSpan(offset));
            left -= take;
            return take;
        }

        public override void Flush()
        {
        }

        public override long Seek(long offset, SeekOrigin origin) => throw new NotSupportedException();

        public override void SetLength(long value) => throw new NotSupportedException();

        public override void Write(byte[] buffer, int offset, int count) => throw new NotSupportedException();
    }
}
