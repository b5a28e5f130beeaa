namespace KittingBee.Planning;

/// <summary>
/// One thing wrong with what was entered: where it is, and a sentence that names the value and the remedy.
/// </summary>
/// <param name="Field">Path of the offending field in the request, such as <c>units[3].turn</c> or <c>pieces[0].width</c>.</param>
/// <param name="Said">A full sentence for a person: what is wrong with which value, and what to do.</param>
public sealed record Problem(string Field, Sentence Said)
{
    /// <summary>The sentence as programs read it.</summary>
    public string Message => Said.ToString();
}
