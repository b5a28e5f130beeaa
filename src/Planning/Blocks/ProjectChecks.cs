using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Checks that a project fits its block; problems are named by the field of the project.</summary>
public static class ProjectChecks
{
    /// <summary>Most blocks across, and most down.</summary>
    public const int MostBlocks = 40;

    /// <summary>Most borders.</summary>
    public const int MostBorders = 8;

    private static readonly Length LargestStrip = Length.FromInches(40);

    /// <summary>Everything wrong; empty when the project is good. The block must have been found good.</summary>
    public static IReadOnlyList<Problem> Check(Block block, Project project)
    {
        var problems = new List<Problem>();
        CheckCount(project.Across, "across", problems);
        CheckCount(project.Down, "down", problems);
        var letters = CheckFabrics(block, project, problems);
        CheckSetting(block, project, letters, problems);
        if (project.Sashing is { } sashing)
        {
            CheckLetter(sashing.Letter, "sashing.fabric", "The sashing", letters, problems);
            CheckStrip(sashing.Width, "sashing.width", "The sashing's finished width", problems);
            if (sashing.Cornerstones is not null)
            {
                CheckLetter(sashing.Cornerstones, "sashing.cornerstones", "The cornerstones", letters, problems, many: true);
            }
        }

        if (project.Borders.Count > MostBorders)
        {
            problems.Add(new("borders", $"The project has {project.Borders.Count} borders; the most is {MostBorders}."));
        }

        foreach (var (index, border) in project.Borders.Index())
        {
            CheckLetter(border.Letter, $"borders[{index}].fabric", $"Border {index + 1}", letters, problems);
            CheckStrip(border.Width, $"borders[{index}].width", $"The finished width of border {index + 1}", problems);
        }

        if (project.Binding is { } binding)
        {
            CheckLetter(binding.Letter, "binding.fabric", "The binding", letters, problems);
            CheckStrip(binding.StripWidth, "binding.stripWidth", "The cut width of the binding's strips", problems);
        }

        if (project.Backing is { } backing)
        {
            CheckLetter(backing.Letter, "backing.fabric", "The backing", letters, problems);
            if (backing.Overhang < Length.Zero || backing.Overhang > LargestStrip)
            {
                problems.Add(new("backing.overhang", $"The backing's overhang is {Sizes.Text(backing.Overhang)}; it must be 0 to {Sizes.Text(LargestStrip)} on each side."));
            }

            if (backing.UsableWidth is { } width && (width < Length.FromInches(10) || width > CuttingRulesChecks.WidestCloth))
            {
                problems.Add(new("backing.usableWidth", $"The backing's usable width is {Sizes.Text(width)}; it must be {Sizes.Text(Length.FromInches(10))} to {Sizes.Text(CuttingRulesChecks.WidestCloth)}."));
            }
        }

        return problems;
    }

    private static void CheckCount(int count, string field, List<Problem> problems)
    {
        if (count is < 1 or > MostBlocks)
        {
            problems.Add(new(field, field == "across"
                ? (Sentence)$"The project has {count} blocks across; it must be 1 to {MostBlocks}."
                : $"The project has {count} blocks down; it must be 1 to {MostBlocks}."));
        }
    }

    private static HashSet<string> CheckFabrics(Block block, Project project, List<Problem> problems)
    {
        var letters = block.Fabrics.Select(fabric => fabric.Letter).ToHashSet(StringComparer.Ordinal);
        foreach (var (index, fabric) in project.Fabrics.Index())
        {
            if (fabric.Letter is not [>= 'A' and <= 'Z'])
            {
                problems.Add(new($"fabrics[{index}].letter", $"The letter of fabric {index + 1} is \"{fabric.Letter}\". Use one capital letter, A to Z."));
            }
            else if (!letters.Add(fabric.Letter))
            {
                problems.Add(new($"fabrics[{index}].letter", $"Fabric {fabric.Letter} is listed already. Give the project's own fabric another letter."));
            }
        }

        return letters;
    }

    private static void CheckSetting(Block block, Project project, HashSet<string> letters, List<Problem> problems)
    {
        if (project.Setting == ProjectSetting.Straight)
        {
            return;
        }

        if (PlacedBlock.Total(block.Columns) is var width && PlacedBlock.Total(block.Rows) is var height && width != height)
        {
            problems.Add(new("setting", $"The block is {Sizes.Text(width)} by {Sizes.Text(height)}; only square blocks are set on point. Set it straight."));
        }

        if (project.Sashing is { Outside: false })
        {
            problems.Add(new("sashing.outside", "On point, sashing goes round the outside too. Choose that, or set the blocks straight."));
        }

        if (project.Sashing is { Cornerstones: null })
        {
            problems.Add(new("sashing.cornerstones", "On point, sashing needs cornerstones. Give their fabric, or set the blocks straight."));
        }

        CheckLetter(project.SettingTriangles, "settingTriangles", "The side and corner triangles", letters, problems, many: true);
        if (project.Alternate is not null)
        {
            CheckLetter(project.Alternate, "alternate", "The squares between the blocks", letters, problems, many: true);
        }
    }

    private static void CheckLetter(string? letter, string field, Sentence what, HashSet<string> letters, List<Problem> problems, bool many = false)
    {
        if (letter is null || !letters.Contains(letter))
        {
            var listed = string.Join(", ", letters);
            problems.Add(new(field, (letter, many) switch
            {
                (null, false) => (Sentence)$"{what} has no fabric. Give its letter.",
                (null, true) => $"{what} have no fabric. Give their letter.",
                (_, false) => $"{what} uses fabric {letter}, which is not listed. List it or use one of {listed}.",
                _ => $"{what} use fabric {letter}, which is not listed. List it or use one of {listed}.",
            }));
        }
    }

    private static void CheckStrip(Length width, string field, Sentence what, List<Problem> problems)
    {
        if (!width.IsPositive || width > LargestStrip)
        {
            problems.Add(new(field, $"{what} is {Sizes.Text(width)}; it must be more than 0 and at most {Sizes.Text(LargestStrip)}."));
        }
    }
}
