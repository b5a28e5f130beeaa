using Microsoft.AspNetCore.Hosting;
using Microsoft.AspNetCore.Mvc.Testing;
using Microsoft.Extensions.DependencyInjection;

namespace KittingBee.Web.Tests;

/// <summary>The real program on a real, empty database in a folder of its own, which goes away with it.</summary>
public class GuildHost : WebApplicationFactory<Program>
{
    private bool listens;

    private readonly string folder = Directory.CreateTempSubdirectory("kitting-bee-test-").FullName;

    /// <summary>A part of the program, such as a store.</summary>
    public T Get<T>()
        where T : notnull => Services.GetRequiredService<T>();

    /// <summary>Starts listening on a free port, for a browser; gives the address.</summary>
    public Uri Listen()
    {
        if (!listens)
        {
            UseKestrel(0);
            StartServer();
            listens = true;
        }

        return ClientOptions.BaseAddress;
    }

    protected override void ConfigureWebHost(IWebHostBuilder builder) => builder.UseSetting("data", folder);

    protected override void Dispose(bool disposing)
    {
        base.Dispose(disposing);
        if (disposing && Directory.Exists(folder)) // The factory disposes of itself twice.
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
