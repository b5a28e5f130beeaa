using System.Globalization;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;
using Microsoft.Data.Sqlite;

namespace KittingBee.Web.Running;

/// <summary>
/// Makes pages in the guild's language. Only the reader's culture changes: stored values, JSON and drawings are written
/// with the program's own, which belongs to no country.
/// </summary>
public static class ReaderLanguage
{
    private const string FormToken = "RequestVerificationToken";

    /// <summary>The same program on any machine: what is not said in the reader's language on purpose is not in the machine's either.</summary>
    public static void ForgetMachine()
    {
        CultureInfo.DefaultThreadCurrentCulture = CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
        CultureInfo.DefaultThreadCurrentUICulture = CultureInfo.CurrentUICulture = Language.Find(Language.OwnTag).Culture;
    }

    /// <summary>Calls for programs are answered in the sources' own language; one with a page's token is from a page, which shows the answer.</summary>
    public static void UseReaderLanguage(this WebApplication app)
    {
        var guild = app.Services.GetRequiredService<GuildStore>();
        app.Use((context, next) =>
        {
            if (!context.Request.Path.StartsWithSegments("/api", StringComparison.Ordinal) || context.Request.Headers.ContainsKey(FormToken))
            {
                CultureInfo.CurrentUICulture = (OfGuild(guild) ?? Preferred(context.Request)).Culture;
            }

            return next(context);
        });
    }

    /// <summary>The guild's choice; null before it has made one, and where the database does not answer: the page that says so needs a language too.</summary>
    private static Language? OfGuild(GuildStore guild)
    {
        try
        {
            var settings = guild.Read();
            return settings.IsAnswered ? Language.Find(settings.Language) : null;
        }
        catch (SqliteException)
        {
            return null;
        }
    }

    /// <summary>The first of the browser's languages that the program speaks: what an unanswered guild starts with.</summary>
    private static Language Preferred(HttpRequest request)
    {
        var wanted = request.GetTypedHeaders().AcceptLanguage.OrderByDescending(item => item.Quality ?? 1).Select(item => item.Value.ToString());
        var spoken = wanted.Select(tag => Language.Offered.FirstOrDefault(language => Same(language.Tag, tag)) ?? Language.Offered.FirstOrDefault(language => Same(language.Tag, tag.Split('-')[0])));
        return spoken.FirstOrDefault(language => language is not null) ?? Language.Find(Language.OwnTag);
    }

    private static bool Same(string one, string other) => one.Equals(other, StringComparison.OrdinalIgnoreCase);
}
