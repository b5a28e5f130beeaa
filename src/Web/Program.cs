using KittingBee.Web.Api;
using KittingBee.Web.Backups;
using KittingBee.Web.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Demonstration;
using KittingBee.Web.Packing;
using KittingBee.Web.Pages;
using KittingBee.Web.Running;
using KittingBee.Web.Sharing;
using KittingBee.Web.Storage;
using KittingBee.Web.Uploads;

return Starting.Run(args, (options, folder) =>
{
    // The program's own folder and name, not the starter's: a start from elsewhere must find the same program and watch nothing.
    var builder = WebApplication.CreateBuilder(new WebApplicationOptions { ContentRootPath = AppContext.BaseDirectory, ApplicationName = typeof(Program).Assembly.GetName().Name });
    builder.WebHost.UseUrls(options.Urls);
    builder.AddSharing();
    builder.LimitBodies();
    builder.Logging.SetMinimumLevel(LogLevel.Warning).AddFilter("Microsoft.AspNetCore.DataProtection", LogLevel.Error).WriteOneLineEach();

    builder.Services.AddSingleton(folder);
    builder.Services.AddStorage();
    builder.Services.AddBackups();
    builder.Services.AddClassPlanning();
    builder.Services.AddPacking();
    builder.Services.AddDemonstration();
    builder.Services.AddPlanningApi();
    builder.Services.AddPages(folder);

    var app = builder.Build();
    app.OpenDatabase();

    app.UseSecurityHeaders(Security.Headers());
    app.UseOwnSiteOnly();
    app.UseProblemPages();
    app.UseOwnFiles();
    app.UseReaderLanguage();
    app.UseRouting();
    app.UseAccess();
    app.UseBodyLimits();
    app.UseAntiforgery();
    app.MapPlanningApi();
    app.MapBlocks();
    app.MapPacking();
    app.MapRazorPages();
    app.MapHealth();

    if (options.Demo)
    {
        app.LoadDemonstration();
    }

    app.ShareWhenStarted(options);
    app.AnnounceWhenStarted(options, folder);
    app.Run();
});

public partial class Program;
