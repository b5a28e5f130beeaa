using System.Collections;
using System.Globalization;
using System.Text;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Forms;

/// <summary>A field that is stored otherwise than it was typed.</summary>
public sealed record StaleField(string Name, string Stored, string Typed);

/// <summary>What to say when somebody else saved in the meantime.</summary>
public static class StaleText
{
    private const string Key = "stale-fields";

    private const int Longest = 3000;

    /// <summary>
    /// Answers 409 with both texts side by side; what was typed stays in the form, and sending it again replaces what is stored.
    /// </summary>
    /// <param name="page">The page whose form was sent.</param>
    /// <param name="stored">The form as it would show what is stored now.</param>
    /// <param name="typed">The form as it was sent.</param>
    /// <param name="takeVersion">Puts the stored version into the form.</param>
    /// <param name="field">Name of the version's field.</param>
    public static void SayStale(this PageModel page, object stored, object typed, Action takeVersion, string field = "Form.Version")
    {
        var fields = Differences(stored, typed);
        page.HttpContext.Items[Key] = fields;
        page.ModelState.AddModelError(
            "",
            Say("Nothing of yours is stored yet: somebody saved this meanwhile. Both texts stand at the top of the page. Save again to keep yours."));
        page.ModelState.Remove(field);
        takeVersion();
        page.Response.StatusCode = StatusCodes.Status409Conflict;
    }

    /// <summary>The fields that differ, for the page; null where nothing was stale.</summary>
    public static IReadOnlyList<StaleField>? Of(HttpContext context) => context.Items[Key] as IReadOnlyList<StaleField>;

    /// <summary>The fields of two forms that differ, in their order.</summary>
    public static IReadOnlyList<StaleField> Differences(object stored, object typed)
    {
        var (now, mine) = (Texts(stored), Texts(typed));
        return [.. now.Keys.Union(mine.Keys)
            .Select(name => new StaleField(name, now.GetValueOrDefault(name, ""), mine.GetValueOrDefault(name, "")))
            .Where(item => item.Stored != item.Typed)];
    }

    // A form is a bag of what can be typed: all of its fields matter here, those added later too.
    private static Dictionary<string, string> Texts(object form)
    {
        var texts = new Dictionary<string, string>();
        Add("", form);
        return texts;

        void Add(string name, object? value)
        {
            switch (value)
            {
                case null: texts[name] = ""; break;
                case string text: texts[name] = Shown(text); break;
                case bool yes: texts[name] = yes ? Say("yes") : Say("no"); break;
                case IDictionary pairs: Each(name, pairs.Keys.Cast<object>().Select(key => (Convert.ToString(key, CultureInfo.InvariantCulture)!, pairs[key]))); break;
                case IEnumerable list: Each(name, list.Cast<object?>().Select((item, at) => ((at + 1).ToString(CultureInfo.InvariantCulture), item))); break;
                case IFormattable plain: texts[name] = plain.ToString(null, CultureInfo.InvariantCulture); break;
                default: Each(name, value.GetType().GetProperties().Where(property => property.CanWrite && property.Name is not ("Version" or "Json" or "Overwrite")).Select(property => (Words(property.Name), property.GetValue(value)))); break;
            }
        }

        void Each(string name, IEnumerable<(string Name, object? Value)> items)
        {
            foreach (var item in items)
            {
                Add($"{name} {FieldNames.Of(item.Name)}".Trim(), item.Value);
            }
        }
    }

    private static string Shown(string text)
    {
        var even = text.ReplaceLineEndings("\n").Trim();
        return even.Length > Longest ? even[..Longest] + "…" : even;
    }

    // UsableWidth becomes "usable width".
    private static string Words(string name)
    {
        var words = new StringBuilder();
        foreach (var letter in name)
        {
            words.Append(char.IsUpper(letter) && words.Length > 0 && words[^1] != ' ' ? " " : "").Append(char.ToLowerInvariant(letter));
        }

        return words.ToString();
    }
}
