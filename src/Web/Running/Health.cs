using KittingBee.Web.Storage;

namespace KittingBee.Web.Running;

/// <summary>Says whether the program works, to whatever watches over it; nothing about the guild.</summary>
public static class Health
{
    public static void MapHealth(this IEndpointRouteBuilder app) => app.MapGet("/healthz", Answer).AllowAnonymous().ExcludeFromDescription();

    private static IResult Answer(Database database)
    {
        try
        {
            database.Read(session => session.Get<long>("SELECT count(*) FROM sqlite_schema"));
            return Results.Text("ready\n");
        }
        catch (Microsoft.Data.Sqlite.SqliteException)
        {
            return Results.Text("the database does not answer\n", statusCode: StatusCodes.Status503ServiceUnavailable);
        }
    }
}
