using KittingBee.Planning.Formats;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Drawing;

namespace KittingBee.Web.Showing;

/// <summary>Draws how a student cuts what lies in the bag, the same on the Formats page and on the handout.</summary>
public static class HandedOutPicture
{
    /// <summary>One drawing for each recipe, with how often it is cut.</summary>
    /// <param name="id">Start of the ids inside; made up when not given.</param>
    public static IReadOnlyList<(string Svg, int Repeat)> Draw(HandedOut thing, ClassHabits habits, string letter, string colour, int width, string? id = null) =>
    [
        .. thing.Recipes.Select((recipe, index) => (
            RecipeDrawing.Svg(recipe, thing.Usable, new RecipeOptions
            {
                // A sheet is drawn at six tenths of the width that is asked for.
                Width = width * 10 / 6,
                Letter = letter,
                Colour = colour,
                Sizes = habits.Style,
                Id = id is null ? null : FormattableString.Invariant($"{id}{index}"),
                Title = Say($"{thing.InWords(habits.Style)}, cut {recipe.Repeat}"),
            }),
            recipe.Repeat)),
    ];
}
