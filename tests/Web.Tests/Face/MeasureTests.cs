using System.Text;
using System.Text.Json;
using System.Text.RegularExpressions;
using Microsoft.Playwright;

namespace KittingBee.Web.Tests.Face;

/// <summary>What can be measured of each page in a real browser: weight, steadiness, reach for thick fingers, and where the focus is.</summary>
public sealed partial class MeasureTests(DemonstrationHost guild, Browser browser) : IClassFixture<DemonstrationHost>, IClassFixture<Browser>
{
    // The aim of this program for a first load: page, styles and scripts together, pictures (drawings in the page too) not counted.
    private const int MostBytes = 150_000;

    // WCAG 2.2, 2.5.5 (target size, enhanced): 44 × 44 CSS px; links within text are excepted.
    private const string SmallTargets = """
        () => [...document.querySelectorAll('button, .button, summary, nav a, select, textarea, input:not([type=hidden]):not([type=checkbox]):not([type=radio]), .tickbox, .act a')]
          .filter(e => e.checkVisibility({ visibilityProperty: true, opacityProperty: true }) && e.getBoundingClientRect().width > 1)
          .filter(e => { const box = e.getBoundingClientRect(); return box.height < 43.5 || (box.width < 43.5 && !e.closest('td')); })
          .map(e => e.outerHTML.slice(0, 110) + ' ' + Math.round(e.getBoundingClientRect().width) + '×' + Math.round(e.getBoundingClientRect().height))
        """;

    // Every stop of the Tab key: inside the window once it has the focus, with nothing lying on it, and seen to have it.
    private const string LostFocus = """
        () => {
          const lost = [];
          for (const e of document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary, [tabindex="0"]')) {
            if (!e.checkVisibility({ visibilityProperty: true }) || e.disabled) continue;
            e.focus();
            if (document.activeElement !== e) { lost.push('cannot be focused: ' + e.outerHTML.slice(0, 100)); continue; }
            const style = getComputedStyle(e), box = e.getClientRects()[0];
            if (e.type !== 'color' && (style.outlineStyle === 'none' || parseFloat(style.outlineWidth) < 2)) lost.push('no outline: ' + e.outerHTML.slice(0, 100));
            const x = Math.min(Math.max(box.x + box.width / 2, 1), innerWidth - 2), y = Math.min(Math.max(box.y + Math.min(box.height / 2, 20), 1), innerHeight - 2);
            const top = document.elementFromPoint(x, y);
            if (top && top !== e && !e.contains(top) && !top.contains(e) && !top.closest('label')) lost.push('covered by ' + top.outerHTML.slice(0, 60) + ': ' + e.outerHTML.slice(0, 100));
          }
          return lost;
        }
        """;

    public static TheoryData<string> Pages => FaceTests.Pages;

    [Theory]
    [MemberData(nameof(Pages))]
    public async Task Page_IsLightSteadyAndWithinReach(string address)
    {
        var page = await browser.NewPage(1280, 900);
        try
        {
            await page.AddInitScriptAsync("window.shifts = []; new PerformanceObserver(list => { for (const entry of list.getEntries()) if (!entry.hadRecentInput) window.shifts.push(entry.value); }).observe({ type: 'layout-shift', buffered: true });");
            await page.EmulateMediaAsync(new() { ReducedMotion = ReducedMotion.Reduce });
            var parts = new List<IResponse>();
            page.Response += (_, answer) => parts.Add(answer);
            var loaded = await page.GotoAsync(guild.At(address), new() { WaitUntil = WaitUntilState.Load });

            // The overview and the packing table ask for more once they are there; a shift would come then.
            await page.WaitForTimeoutAsync(400);
            Assert.Equal(0, (await page.EvaluateAsync<double[]>("window.shifts")).Sum(), 0.001);

            var bytes = Encoding.UTF8.GetByteCount(Drawing().Replace(await loaded!.TextAsync(), ""));
            foreach (var part in parts.Where(part => part.Request.ResourceType is "stylesheet" or "script" && part.Ok))
            {
                bytes += (await part.BodyAsync()).Length;
            }

            Assert.True(bytes <= MostBytes, $"{address} weighs {bytes} bytes without pictures; {MostBytes} are the most.");
            await None(page, LostFocus);

            // Twice the size of everything leaves half the window.
            await page.SetViewportSizeAsync(640, 450);
            Assert.True(await page.EvaluateAsync<int>("document.documentElement.scrollWidth") <= 640, $"{address} runs out of a window of 1,280 px at 200 %.");

            await page.SetViewportSizeAsync(390, 844);
            await None(page, SmallTargets);

            // Forced colours take every background away: a button must still be seen to be one.
            await page.EmulateMediaAsync(new() { ForcedColors = ForcedColors.Active });
            await None(page, "() => [...document.querySelectorAll('button:not(.plain), .button, .card, input:not([type=hidden]), select')].filter(e => e.checkVisibility() && parseFloat(getComputedStyle(e).borderTopWidth) < 1 && !e.closest('.plain') && !['checkbox', 'radio', 'color', 'file'].includes(e.type)).map(e => e.outerHTML.slice(0, 100))");

            // Nothing moves for those who asked for that.
            await None(page, "() => document.getAnimations().filter(a => a.playState === 'running' && (a.effect.getTiming().duration > 1)).map(a => a.effect.target.outerHTML.slice(0, 100))");
        }
        finally
        {
            await page.Context.CloseAsync();
        }
    }

    private static async Task None(IPage page, string script)
    {
        var found = JsonSerializer.Deserialize<string[]>((await page.EvaluateAsync(script))!.Value.GetRawText())!;
        Assert.True(found.Length == 0, $"{page.Url}:\n{string.Join('\n', found)}");
    }

    [GeneratedRegex("<svg.*?</svg>", RegexOptions.Singleline)]
    private static partial Regex Drawing();
}
