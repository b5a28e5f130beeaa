using KittingBee.Planning.Cutting;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Documents.Drawing;

/// <summary>
/// Draws a cutting recipe to scale on white: each piece hatched, one label for a run of equal columns, what is left over
/// dashed. A label that does not fit is a number, with its text below the drawing.
/// </summary>
public static class RecipeDrawing
{
    /// <summary>A strip across the bolt.</summary>
    /// <param name="strip">The recipe.</param>
    /// <param name="usableWidth">Width of cloth that the strip is cut from.</param>
    /// <param name="options">How to draw it.</param>
    public static string Svg(Strip strip, Length usableWidth, RecipeOptions? options = null) => Picture(strip, usableWidth, options).Svg;

    /// <summary>A strip across the bolt, with what the numbers in it stand for where it is shown small.</summary>
    public static RecipePicture Picture(Strip strip, Length usableWidth, RecipeOptions? options = null)
    {
        options ??= new();
        var page = new RecipePage(new DrawingFrame(usableWidth, options.Width), options, lengthwise: false, usableWidth, strip.Height);
        page.Strip(strip, Length.Zero, usableWidth);
        return page.Finish(options.Title ?? Say($"Strip {LengthText.Write(strip.Height, options.Sizes)}, cut {strip.Repeat}"));
    }

    /// <summary>A sheet, cut into strips along either side first.</summary>
    /// <param name="recipe">The recipe.</param>
    /// <param name="sheet">The sheet, as it can be cut: washed and squared.</param>
    /// <param name="options">How to draw it.</param>
    public static string Svg(SheetRecipe recipe, SheetStock sheet, RecipeOptions? options = null) => Picture(recipe, sheet, options).Svg;

    /// <summary>A sheet, with what the numbers in it stand for where it is shown small.</summary>
    public static RecipePicture Picture(SheetRecipe recipe, SheetStock sheet, RecipeOptions? options = null)
    {
        options ??= new();

        // A sheet taller than wide would fill a page; its longer side sets the scale.
        var longest = Length.Max(sheet.Width, sheet.Length);
        var frame = new DrawingFrame(longest, options.Width * 0.6m);
        var page = new RecipePage(frame, options, recipe.Lengthwise, sheet.Width, sheet.Length);
        var across = recipe.Lengthwise ? sheet.Length : sheet.Width;
        var start = Length.Zero;
        foreach (var strip in recipe.Strips.SelectMany(strip => Enumerable.Repeat(strip, strip.Repeat)))
        {
            page.Strip(strip, start, across);
            start += strip.Height;
        }

        var depth = recipe.Lengthwise ? sheet.Width : sheet.Length;
        page.LeftOver(Length.Zero, start, across, depth - start);
        return page.Finish(options.Title ?? Say($"{sheet.Name}, {LengthText.Write(sheet.Width, options.Sizes)} × {LengthText.Write(sheet.Length, options.Sizes)}, cut {recipe.Repeat}"));
    }
}

/// <summary>A recipe as it is drawn.</summary>
/// <param name="Svg">The drawing.</param>
/// <param name="Numbered">What the numbers of its large words stand for, from 1; none where it is not shown small.</param>
public sealed record RecipePicture(string Svg, IReadOnlyList<string> Numbered);
