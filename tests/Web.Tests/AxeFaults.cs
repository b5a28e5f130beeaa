using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests;

/// <summary>What axe finds wrong with a page, with the elements it means.</summary>
internal static class AxeFaults
{
    // For faults alone: to describe what is right as well, and carry it over, takes half as long again.
    private const string Run = """
        async () => (await axe.run({ resultTypes: ['violations'] })).violations
          .map(fault => `${location.pathname}${location.search} at ${innerWidth} px: ${fault.id}: ${fault.help}: ${fault.nodes.slice(0, 3).map(node => node.html).join(' | ')}`)
        """;

    private static readonly string _axe = new BundledAxeScriptProvider().GetScript();

    public static async Task<string[]> FaultsThatAxeFinds(this IPage page)
    {
        if (!await page.EvaluateAsync<bool>("() => Boolean(globalThis.axe)"))
        {
            await page.EvaluateAsync(_axe);
        }

        return await page.EvaluateAsync<string[]>(Run);
    }
}
