using System.Globalization;
using System.Net;
using KittingBee.Web.Classes;
using KittingBee.Web.Storage;
using Microsoft.AspNetCore.Html;

namespace KittingBee.Web.Packing;

/// <summary>Tick buttons. A class of two thousand kits has tens of thousands of them, so they are written straight and kept small.</summary>
public static class TickHtml
{
    /// <summary>A line's tick. <paramref name="gives"/> is the state that it gives; a line that has it gives it back.</summary>
    public static IHtmlContent Line(long kit, BagLine line, string gives, ClassHabits habits, bool closed) =>
        new HtmlString(string.Create(CultureInfo.InvariantCulture, $"""
            <button class="tick {line.State}" name="mark" value="{Order(kit, line.Line.Key, line.Mark, gives)}" data-line="{Text(line.Line.Key)}" aria-pressed="{Pressed(line.Mark, gives)}"{(closed ? " disabled" : "")}><b>{Text(line.Line.Letter)}</b> {Text(line.Line.Size(habits))} ×&#160;{line.Line.Count} <small>{Text(KitState.Words(line.State))}</small></button>
            """));

    /// <summary>The tick of a whole kit: checked or handed over.</summary>
    public static IHtmlContent Whole(PlannedKit kit, KitMark? whole, string gives, bool closed) =>
        new HtmlString(string.Create(CultureInfo.InvariantCulture, $"""
            <button class="tick whole {whole?.State}" name="mark" value="{Order(kit.KitId, KitMark.WholeKit, whole, gives)}" data-line="{KitMark.WholeKit}" data-gives="{gives}" aria-pressed="{Pressed(whole, gives)}"{(closed ? " disabled" : "")}><b>{Text(gives == KitState.Checked ? Say("Checked") : Say("Handed over"))}</b><span class="sr"> {Text(Say($"kit {kit.Number}"))}</span></button>
            """));

    private static string Order(long kit, string line, KitMark? mark, string gives) => mark?.State == gives
        ? FormattableString.Invariant($"{PackOrder.Undo} {kit} {mark.Sequence}")
        : FormattableString.Invariant($"{gives} {kit} {Text(line)}");

    private static string Pressed(KitMark? mark, string gives) => mark?.State == gives ? "true" : "false";

    private static string Text(string text) => WebUtility.HtmlEncode(text);
}
