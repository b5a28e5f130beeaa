using KittingBee.Web.Storage;

namespace KittingBee.Web.Exchange;

/// <summary>What the guild's and a class's file are made of.</summary>
public static class FileFormat
{
    public const string Name = "kitting-bee";

    /// <summary>Of the envelope. What the tables hold is told by the schema that the file names.</summary>
    public const int Version = 1;

    public const string Guild = "guild";
    public const string Class = "class";

    /// <summary>Largest file taken in. Photographed notes make a guild's file large; all else stays under a few megabytes.</summary>
    public const int LargestFile = 64_000_000;

    /// <summary>Name of the newest change to the database that this program knows, such as <c>0005_shopping</c>.</summary>
    public static string Schema => SchemaOf(Migrations.Scripts()[^1].Name);

    public static string SchemaOf(string script) => Path.GetFileNameWithoutExtension(script);

    /// <summary>Tables that neither file has, and why.</summary>
    public static IReadOnlyDictionary<string, string> LeftOut { get; } = new Dictionary<string, string>(StringComparer.Ordinal)
    {
        ["share_setting"] = "this machine's password",
        ["share_join"] = "codes that let helpers in here",
        ["share_device"] = "devices that may come in here",
        ["share_event"] = "who tried to come in here",
        ["kit_link"] = "unguessable links to this machine's pages",
    };

    /// <summary>Tables of the guild that a class's file has no row of; it has rows of other such tables where the class needs them.</summary>
    public static IReadOnlySet<string> OnlyInGuild { get; } = new HashSet<string>(StringComparer.Ordinal) { "guild", "block_draft", "project" };
}
