using System.Net;
using KittingBee.Web.Sharing;
using KittingBee.Web.Storage;
using KittingBee.Web.Tests.Packing;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.TestHost;
using Microsoft.Extensions.DependencyInjection;

namespace KittingBee.Web.Tests.Sharing;

/// <summary>A guild that is shared, with two classes to pack. Requests may say from which address they come.</summary>
public sealed class SharedHost : GuildHost, IAsyncLifetime
{
    public const string Password = "three plain words";

    public const string FromHeader = "Test-From";

    /// <summary>True to leave it unshared, without a password.</summary>
    public bool StaysAlone { get; init; }

    public long ClassId { get; private set; }

    public long OtherClassId { get; private set; }

    public async ValueTask InitializeAsync()
    {
        ClassId = await ExampleClass.Store(this, 3);
        OtherClassId = await ExampleClass.Store(this, 2);
        if (StaysAlone)
        {
            return;
        }

        await Get<TeacherPassword>().Set(Password);
        await Get<SharingDesk>().Start(https: false);
    }

    /// <summary>Somebody who has not signed in, on a phone of their own.</summary>
    public HttpClient Stranger(string from = "192.168.7.20")
    {
        var client = CreateClient(new() { AllowAutoRedirect = false });
        client.DefaultRequestHeaders.Add(FromHeader, from);
        return client;
    }

    public async Task<HttpClient> Teacher(string from = "192.168.7.2")
    {
        var client = Stranger(from);
        var (status, _) = await new FormClient(client).Post("/sign-in", "/sign-in?handler=Teacher", new Dictionary<string, string> { ["Password"] = Password });
        Assert.Equal(HttpStatusCode.Redirect, status);
        return client;
    }

    public async Task<JoinCode> JoinCode(long classId)
    {
        Assert.True(await Get<SharingDesk>().MakeJoinCode(classId, TimeSpan.FromHours(3), DateTimeOffset.UtcNow, new Microsoft.AspNetCore.Http.DefaultHttpContext()));
        return Get<ShareStore>().Joins().Single(join => join.ClassId == classId);
    }

    public async Task<HttpClient> Helper(long classId, string name = "Tove", string from = "192.168.7.30")
    {
        var client = Stranger(from);
        var join = Get<ShareStore>().Joins().FirstOrDefault(join => join.ClassId == classId) ?? await JoinCode(classId);
        var (status, html) = await new FormClient(client).Post("/sign-in", "/sign-in?handler=Helper", new Dictionary<string, string> { ["Code"] = join.Code, ["Name"] = name });
        Assert.True(status == HttpStatusCode.Redirect, html);
        return client;
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder)
    {
        base.ConfigureWebHost(builder);
        builder.ConfigureTestServices(services => services.AddSingleton<IStartupFilter, FromAnAddress>());
    }

    /// <summary>Gives each request the address that it says it comes from: a test server has no network.</summary>
    private sealed class FromAnAddress : IStartupFilter
    {
        public Action<IApplicationBuilder> Configure(Action<IApplicationBuilder> next) => app =>
        {
            app.Use((context, rest) =>
            {
                if (context.Request.Headers[FromHeader].FirstOrDefault() is { } from)
                {
                    context.Connection.RemoteIpAddress = IPAddress.Parse(from);
                }

                return rest(context);
            });
            next(app);
        };
    }
}
