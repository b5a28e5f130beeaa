using KittingBee.Web.Showing;
using Microsoft.AspNetCore.Mvc.ModelBinding.Metadata;

namespace KittingBee.Web.Forms;

/// <summary>What is said where a field is sent that no page sends: a choice that is not offered, a number that is none.</summary>
internal static class Refusals
{
    /// <summary>Says it in the reader's language.</summary>
    public static void Say(DefaultModelBindingMessageProvider messages)
    {
        messages.SetAttemptedValueIsInvalidAccessor((value, _) => Unknown(value));
        messages.SetNonPropertyAttemptedValueIsInvalidAccessor(Unknown);
        messages.SetValueIsInvalidAccessor(Unknown);
        messages.SetUnknownValueIsInvalidAccessor(_ => Words.Say("That is not one of the choices."));
        messages.SetNonPropertyUnknownValueIsInvalidAccessor(() => Words.Say("That is not one of the choices."));
        messages.SetValueMustBeANumberAccessor(_ => Words.Say("Type a number."));
        messages.SetNonPropertyValueMustBeANumberAccessor(() => Words.Say("Type a number."));
        messages.SetValueMustNotBeNullAccessor(_ => Words.Say("Choose one from the list."));
        messages.SetMissingBindRequiredValueAccessor(_ => Words.Say("Choose one from the list."));
        messages.SetMissingKeyOrValueAccessor(() => Words.Say("Choose one from the list."));
    }

    private static string Unknown(string value) => Words.Say($"“{value}” is not one of the choices.");
}
