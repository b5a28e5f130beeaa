using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests;

/// <summary>What axe finds wrong with a page, with the elements it means.</summary>
internal static class AxeFaults
{
    // Run here, and for faults alone: the package's own way describes what is right as well and carries all of it to a second page and back.
    private const string Run = """
        async () => (await axe.run({ resultTypes: ['violations'] })).violations
          .map(fault => `${location.pathname}: ${fault.id}: ${fault.help}: ${fault.nodes.slice(0, 3).map(node => node.html).join(' | ')}`)
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
