using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Classes;

/// <summary>
/// The words of a page, from which everything that was reckoned elsewhere is taken away: a number that is left over then was
/// compared with nothing.
/// </summary>
internal sealed partial class PageNumbers
{
    private const string Digits = "0-9¼½¾⅐-⅞";

    private readonly string address;
    private string words;

    private PageNumbers(string address, string words, IReadOnlyList<string> drawn)
    {
        (this.address, this.words) = (address, $" {Collapsed(words)} ");
        Drawn = drawn;
    }

    /// <summary>What stands in the page's drawings, text by text.</summary>
    public IReadOnlyList<string> Drawn { get; }

    /// <summary>Reads a page, what it folds away included, and its drawings apart.</summary>
    public static async Task<PageNumbers> Read(IPage page, Uri address, string? waitFor = null)
    {
        await page.GotoAsync(address.ToString());
        if (waitFor is not null)
        {
            await page.GetByText(waitFor).First.WaitForAsync();
        }

        await page.EvaluateAsync("() => document.querySelectorAll('main details').forEach(one => one.open = true)");
        var drawn = await page.EvaluateAsync<string[]>("() => [...document.querySelectorAll('main svg')].flatMap(svg => { const all = [...svg.querySelectorAll('text')].map(one => one.textContent); svg.remove(); return all; })");
        return new(address.ToString(), await page.InnerTextAsync("main"), drawn);
    }

    /// <summary>Takes a phrase away, once for each time that it is expected; it has to be there.</summary>
    public void Take(string phrase, int times = 1)
    {
        for (var time = 0; time < times; time++)
        {
            Assert.True(TryTake(phrase), $"{address} does not say “{phrase}”{(time > 0 ? $" {times} times" : "")}. What else it says: {words}");
        }
    }

    /// <summary>Takes the one of several ways of saying a thing that the page has.</summary>
    public void TakeOneOf(params string[] phrases) => Assert.True(
        phrases.Any(TryTake), $"{address} says none of “{string.Join("”, “", phrases)}”. What else it says: {words}");

    /// <summary>Fails where a number is left over.</summary>
    public void AssertNoneIsLeft()
    {
        var left = ANumber().Matches(words).Select(match => match.Value.Trim()).ToList();
        Assert.True(left.Count == 0, $"{address} has numbers that are compared with nothing: “{string.Join("”, “", left)}”.");
    }

    private bool TryTake(string phrase)
    {
        // A 1 is not part of 11, nor of 1½ or 0.1.
        var match = Regex.Match(words, $@"(?<![{Digits}]|[{Digits}][.,]){Regex.Escape(Collapsed(phrase))}(?![{Digits}]|[.,][{Digits}])");
        if (match.Success)
        {
            words = words[..match.Index] + "…" + words[(match.Index + match.Length)..];
        }

        return match.Success;
    }

    private static string Collapsed(string text) => Spaces().Replace(text, " ").Trim();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Spaces();

    [GeneratedRegex(@"[^…]{0,40}[0-9¼½¾⅐-⅞][^…]{0,30}")]
    private static partial Regex ANumber();
}
