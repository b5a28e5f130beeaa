using System.Reflection;
using System.Text.Encodings.Web;
using System.Text.Unicode;
using KittingBee.Web.Forms;
using KittingBee.Web.Pages.Classes;
using KittingBee.Web.Running;
using KittingBee.Web.Sharing;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.ModelBinding;
using Microsoft.Extensions.FileProviders;
using Microsoft.Extensions.WebEncoders;

namespace KittingBee.Web.Pages;

/// <summary>Sets up the pages for people.</summary>
public static class PageServices
{
    public static void AddPages(this IServiceCollection services, DataFolder folder)
    {
        // The keys that seal forms live with the guild's data: no other folder is written to.
        services.AddDataProtection().SetApplicationName("KittingBee").PersistKeysToFileSystem(new DirectoryInfo(folder.Keys));
        services.AddSingleton<ShareAddress>();
        services.AddSingleton<ClassDesk>();
        services.AddSingleton<ShoppingDesk>();

        // Names in any script and ½ stand in the page as themselves; what HTML gives a meaning is still escaped.
        services.Configure<WebEncoderOptions>(options => options.TextEncoderSettings = new TextEncoderSettings(UnicodeRanges.All));
        services.AddRazorPages(options =>
        {
            Access.OpenPages(options.Conventions);
            options.Conventions.AddPageRoute("/Shelf/Fabric", "/shelf/fabrics/new");
            options.Conventions.AddPageRoute("/Shelf/Piece", "/shelf/pieces/new");
            options.Conventions.AddPageRoute("/Blocks/Typed", "/blocks/typed");
            options.Conventions.AddPageRoute("/Blocks/Project", "/projects/{projectId:long}");
            options.Conventions.AddPageRoute("/Classes/Edit", "/classes/new");
            options.Conventions.AddPageRoute("/Classes/Colourway", "/classes/{classId:long}/fabrics/new");
        }).AddMvcOptions(options => Refusals.Say(options.ModelBindingMessageProvider));
        services.AddAntiforgery(options =>
        {
            options.Cookie.Name = "kitting-bee-form";
            options.Cookie.SameSite = SameSiteMode.Strict;
        });
        services.Configure<MvcOptions>(options => options.Filters.Add<NamedCallsOnly>());

        // What the address names was checked: a field of the same name in the form must not put something else in its place.
        services.Configure<MvcOptions>(options =>
        {
            var route = options.ValueProviderFactories.OfType<RouteValueProviderFactory>().Single();
            options.ValueProviderFactories.Remove(route);
            options.ValueProviderFactories.Insert(0, route);
        });
        services.Configure<CookieTempDataProviderOptions>(options =>
        {
            options.Cookie.Name = "kitting-bee-notice";
            options.Cookie.SameSite = SameSiteMode.Strict;
        });
        services.AddRouting(options => options.LowercaseUrls = true);
    }

    /// <summary>An unknown error shows a page with a reference number and nothing internal; a missing page says what to do. Programs get problem details.</summary>
    public static void UseProblemPages(this WebApplication app)
    {
        app.UseWhen(IsForPrograms, calls =>
        {
            calls.UseExceptionHandler();
            calls.UseStatusCodePages();
        });
        app.UseWhen(context => !IsForPrograms(context), pages =>
        {
            pages.UseExceptionHandler("/error");
            pages.UseStatusCodePagesWithReExecute("/error", "?status={0}");
        });
    }

    /// <summary>Serves styles and scripts from inside the program, so that they are there however it was started.</summary>
    public static void UseOwnFiles(this WebApplication app)
    {
        app.Environment.WebRootFileProvider = new EmbeddedFileProvider(Assembly.GetExecutingAssembly(), "wwwroot");
        app.UseStaticFiles(new StaticFileOptions
        {
            // Links carry the file's hash, so a copy is good until the link changes. What a script imports has no hash: ask each time.
            OnPrepareResponse = context => context.Context.Response.Headers.CacheControl =
                context.Context.Request.Query.ContainsKey("v") ? "public, max-age=604800" : "no-cache",
        });
    }

    private static bool IsForPrograms(HttpContext context) => context.Request.Path.StartsWithSegments("/api", StringComparison.Ordinal);
}
