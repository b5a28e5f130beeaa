namespace KittingBee.Web.Storage;

/// <summary>What the guild answered once, and every new class starts from.</summary>
public sealed record Guild
{
    public string Name { get; init; } = "";

    /// <summary><c>inches</c> or <c>centimetres</c>.</summary>
    public string Units { get; init; } = "inches";

    /// <summary><c>letter</c> or <c>a4</c>.</summary>
    public string Paper { get; init; } = "letter";

    /// <summary>ISO 4217 code.</summary>
    public string Currency { get; init; } = "USD";

    /// <summary>BCP 47 tag of the language and spelling of the pages.</summary>
    public string Language { get; init; } = Showing.Language.OwnTag;

    /// <summary>True for the invented guild that is there to look at.</summary>
    public bool Demonstration { get; init; }

    /// <summary>0 until the guild has answered.</summary>
    public long Version { get; init; }

    public bool Metric => Units == "centimetres";

    public bool IsAnswered => Version > 0;
}

/// <summary>Stores the guild's settings.</summary>
public sealed class GuildStore(Database database)
{
    private const string Select = "SELECT name, units, paper, currency, language, demonstration, version FROM guild WHERE id = 1";

    private const string Insert = "INSERT INTO guild (id, name, units, paper, currency, language, demonstration) VALUES (1, @Name, @Units, @Paper, @Currency, @Language, @Demonstration) ON CONFLICT (id) DO NOTHING";

    private const string Update = """
        UPDATE guild SET name = @Name, units = @Units, paper = @Paper, currency = @Currency, language = @Language, version = version + 1
        WHERE id = 1 AND version = @Version
        """;

    /// <summary>The settings; defaults with version 0 when nobody has answered yet.</summary>
    public Guild Read() => database.Read(session => session.One<Guild>(Select)) ?? new Guild();

    /// <summary>Stores the settings that were read as <see cref="Guild.Version"/>.</summary>
    public Task<Saved> Save(Guild guild) => database.Write(session =>
        session.Run(guild.IsAnswered ? Update : Insert, guild) == 1 ? Saved.Done : Saved.Stale);

    /// <summary>Empties the guild of everything; only the demonstration can be emptied. Make a copy first.</summary>
    public Task<bool> EmptyDemonstration() => database.Write(session =>
    {
        if (session.One<Guild>(Select) is not { Demonstration: true })
        {
            return false;
        }

        // Whole tables go at once, so what refers to what is checked at the end.
        session.Run("PRAGMA defer_foreign_keys = ON");
        // What lets people in here stays, except where it was for a class that is gone.
        foreach (var table in TableShape.All(session).Where(table => !KeptTables.Contains(table.Name) || table.References.Count > 0))
        {
            var whichOnes = KeptTables.Contains(table.Name) ? " WHERE " + string.Join(" OR ", table.References.Select(reference => $"\"{reference.Column}\" IS NOT NULL")) : "";
            session.Run($"DELETE FROM \"{table.Name}\"{whichOnes}");
        }

        return true;
    });
}
