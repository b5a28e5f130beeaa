using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Showing;

/// <summary>The guild's units, paper and currency, for pages outside a class.</summary>
public static class Habits
{
    public static ClassHabits Of(Guild guild) => new(guild.Metric, guild.Paper == "a4", guild.Currency);

    /// <summary>A size exactly as it can be typed again, in a form field.</summary>
    public static string InField(this ClassHabits habits, Length length)
    {
        var text = habits.Show(length);
        if (text.Contains('≈', StringComparison.Ordinal))
        {
            // Off the style's step: inches to the 28th digit, or millimetres, are exact.
            return habits.Metric
                ? FormattableString.Invariant($"{length.Millimetres:0.####} mm")
                : FormattableString.Invariant($"{length.Inches:0.############} in");
        }

        return text;
    }

    /// <summary>Yardage exactly as it can be typed again, in a form field.</summary>
    public static string YardageInField(this ClassHabits habits, Length length)
    {
        var text = habits.ShowYardage(length);
        return text.Contains('≈', StringComparison.Ordinal) ? habits.InField(length) : text;
    }
}
