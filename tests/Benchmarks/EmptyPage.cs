using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;

namespace KittingBee.Benchmarks;

/// <summary>The least that the same framework can serve, to measure the program's pages against on the same machine.</summary>
internal static class EmptyPage
{
    public static void Serve(string address)
    {
        var builder = WebApplication.CreateBuilder();
        builder.Logging.ClearProviders();
        var app = builder.Build();
        app.MapGet("/", () => Results.Content("<!DOCTYPE html><html lang=\"en\"><title>Empty</title><p>Nothing.</p></html>", "text/html"));
        app.Run(address);
    }
}
