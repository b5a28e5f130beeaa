using KittingBee.Web.Forms;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Pages;

/// <summary>The guild's settings as typed.</summary>
public sealed class GuildForm
{
    public string? Name { get; set; }

    public string? Units { get; set; }

    public string? Paper { get; set; }

    public string? Currency { get; set; }

    public string? Language { get; set; }

    public long Version { get; set; }

    public static GuildForm From(Guild guild) =>
        new() { Name = guild.Name, Units = guild.Units, Paper = guild.Paper, Currency = guild.Currency, Language = guild.Language, Version = guild.Version };

    public Guild Read(FormReader reader)
    {
        var currency = (Currency ?? "").Trim().ToUpperInvariant();
        if (currency.Length != 3 || !currency.All(char.IsAsciiLetterUpper))
        {
            reader.Wrong(nameof(Currency), $"The currency is “{Currency}”: type its three letters, such as USD or EUR.");
        }

        return new Guild
        {
            Name = reader.Needed(nameof(Name), Name, "The guild’s name", 80),
            Units = reader.Choice(nameof(Units), Units, "Measures", "inches", "centimetres"),
            Paper = reader.Choice(nameof(Paper), Paper, "Paper", "letter", "a4"),
            Currency = currency,
            // A form without the field keeps the language of the sources.
            Language = Language is null ? Showing.Language.OwnTag : reader.Choice(nameof(Language), Language, "The language", [.. Showing.Language.Offered.Select(language => language.Tag)]),
            Version = Version,
        };
    }
}
