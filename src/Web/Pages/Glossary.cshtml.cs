using KittingBee.Web.Glossary;
using Microsoft.AspNetCore.Mvc.RazorPages;

namespace KittingBee.Web.Pages;

/// <summary>The words, with drawings.</summary>
public sealed class GlossaryModel : PageModel
{
    public IReadOnlyList<Term> Trade { get; } = TradeTerms.All();

    public IReadOnlyList<Term> Own { get; } = OwnTerms.All();
}
