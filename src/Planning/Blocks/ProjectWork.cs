using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Goes from the blocks outward: setting, sashing, borders, binding, backing; each adds pieces, a step and size.</summary>
internal sealed class ProjectWork(PlacedBlock block, Project project, CuttingRules rules)
{
    private readonly List<MadePiece> pieces = [];
    private readonly List<SewingStep> steps = [];
    private readonly List<Sentence> notes = [];

    public Length Width { get; private set; }

    public Length Height { get; private set; }

    public IReadOnlyList<MadePiece> Pieces => pieces;

    public IReadOnlyList<SewingStep> Steps => steps;

    public IReadOnlyList<Sentence> Notes => notes;

    private Length Both => rules.SeamAllowance * 2;

    public void Do()
    {
        if (project.Setting == ProjectSetting.OnPoint)
        {
            SetOnPoint();
        }
        else if (project.Sashing is { } sashing)
        {
            SetWithSashing(sashing);
        }
        else
        {
            Width = block.Width * project.Across;
            Height = block.Height * project.Down;
            AddStep($"Sew the blocks into {Rows(project.Down)} of {project.Across}, and sew the rows together.");
        }

        foreach (var (index, border) in project.Borders.Index())
        {
            AddBorder(border, index);
        }

        if (project.Backing is { } backing)
        {
            AddBacking(backing);
        }

        if (project.Binding is { } binding)
        {
            AddBinding(binding);
        }
    }

    private void SetOnPoint()
    {
        var side = block.Width;
        var strip = project.Sashing?.Width ?? Length.Zero;
        var letter = project.SettingTriangles!;
        Width = OnPointNet.Across(side, strip, project.Across);
        Height = OnPointNet.Across(side, strip, project.Down);
        var sides = (2 * (project.Across - 1)) + (2 * (project.Down - 1));
        if (sides > 0)
        {
            var square = CutSizes.SideSetting(side + strip, rules);
            pieces.Add(new(letter, square, square, Making.Squares(sides, 4), "side setting triangles, cut twice corner to corner"));
        }

        var corner = CutSizes.CornerSetting(side + (strip * 2), rules);
        pieces.Add(new(letter, corner, corner, 2, "corner setting triangles, cut once corner to corner"));
        if (project.Alternate is { } alternate)
        {
            Add(alternate, CutSizes.Patch(side, rules), CutSizes.Patch(side, rules), project.Between, "squares between the blocks");
        }

        if (project.Sashing is { } sashing)
        {
            // Each block of the outer rows has its own four strips; those between share theirs.
            var width = CutSizes.Patch(strip, rules);
            Add(sashing.Letter, CutSizes.Patch(side, rules), width, 4 * project.Across * project.Down, "sashing between blocks");
            Add(sashing.Cornerstones!, width, width, (2 * project.Across * project.Down) + project.Across + project.Down, "cornerstones");
        }

        var laid = (project.Alternate is not null, project.Sashing is not null) switch
        {
            (true, true) => (Sentence)"Lay out blocks, squares, sashing, cornerstones and triangles on point.",
            (true, false) => "Lay out blocks, squares and triangles on point.",
            (false, true) => "Lay out blocks, sashing, cornerstones and triangles on point.",
            _ => "Lay out blocks and triangles on point.",
        };
        AddStep(
            $"{laid} Sew them into diagonal rows with a side triangle at each end, sew the rows together, and add the corner triangles last. "
            + $"Trim the edges {Sizes.Text(rules.SeamAllowance, rules)} outside the outermost corners.");
    }

    private void SetWithSashing(Sashing sashing)
    {
        var (across, down) = (project.Across, project.Down);
        var lines = sashing.Outside ? (Across: across + 1, Down: down + 1) : (Across: across - 1, Down: down - 1);
        Width = (block.Width * across) + (sashing.Width * lines.Across);
        Height = (block.Height * down) + (sashing.Width * lines.Down);
        var width = CutSizes.Patch(sashing.Width, rules);
        var between = sashing.Outside ? (Sentence)"between and at both ends" : "between";
        Add(sashing.Letter, width, CutSizes.Patch(block.Height, rules), lines.Across * down, "sashing between blocks");
        if (sashing.Cornerstones is { } cornerstones)
        {
            Add(sashing.Letter, CutSizes.Patch(block.Width, rules), width, lines.Down * across, "sashing between rows");
            Add(cornerstones, width, width, lines.Across * lines.Down, "cornerstones");
            AddStep($"Sew the blocks into {Rows(down)} of {across} with a sashing strip {between}; sew sashing strips and cornerstones into {Rows(lines.Down)}; sew the rows together, matching the crossings.");
        }
        else
        {
            pieces.AddRange(JoinedStrips.Pieces(
                sashing.Letter, [.. Enumerable.Repeat(CutSizes.Patch(Width, rules), lines.Down)], width, "long sashing between rows", rules));
            AddStep($"Sew the blocks into {Rows(down)} of {across} with a sashing strip {between}, and sew the rows together with {(lines.Down == 1 ? (Sentence)"1 long sashing strip" : $"{lines.Down} long sashing strips")}.");
        }

        // A rule of thumb of the trade; wider strips are allowed.
        if (sashing.Width * 4 > Length.Min(block.Width, block.Height))
        {
            notes.Add("The sashing is wider than a quarter of the block; it may outweigh the blocks.");
        }
    }

    private void AddBorder(Border border, int index)
    {
        Sentence use = $"border {index + 1}";
        var height = CutSizes.Patch(border.Width, rules);
        var side = Height;
        var over = Width + (border.Width * 2);
        pieces.AddRange(JoinedStrips.Pieces(
            border.Letter,
            [CutSizes.Patch(side, rules), CutSizes.Patch(side, rules), CutSizes.Patch(over, rules), CutSizes.Patch(over, rules)],
            height,
            use,
            rules));
        Width = over;
        Height = side + (border.Width * 2);
        AddStep($"Border {index + 1}, {border.Letter}: measure the top through its middle; sew strips of {Sizes.Text(side + Both, rules)} to the sides, press, then strips of {Sizes.Text(over + Both, rules)} to top and bottom.");
    }

    private void AddBinding(Binding binding)
    {
        var strips = JoinedStrips.ForBinding(Width + Both, Height + Both, rules.UsableWidth, rules.SeamAllowance);
        pieces.Add(new(binding.Letter, rules.UsableWidth, CutSizes.UpToStep(binding.StripWidth, rules), strips, "binding, joined end to end", IsStrip: true));
        AddStep($"Join the {(strips == 1 ? (Sentence)"1 binding strip" : $"{strips} binding strips")} of {binding.Letter} end to end and bind the edge.");
        notes.Add("Binding is the perimeter and 10 in more, with straight joins. A slanted join takes about the strip's width: cut a strip more for those.");
    }

    private void AddBacking(Backing backing)
    {
        var width = Width + Both + (backing.Overhang * 2);
        var height = Height + Both + (backing.Overhang * 2);
        var usable = backing.UsableWidth ?? rules.UsableWidth;

        // Panels side by side, or one above the other: as few seams as can be, then less cloth off the bolt.
        var upright = Panels(width, usable);
        var level = Panels(height, usable);
        var useUpright = upright < level || (upright == level && height <= width);
        var (panels, across, along) = useUpright ? (upright, width, height) : (level, height, width);
        var panel = CutSizes.UpToStep((across + (Both * (panels - 1))).DivideRoundingUp(panels), rules);

        // Kept as it lies: across the cloth and along it.
        pieces.Add(new(backing.Letter, Length.Min(panel, usable), CutSizes.UpToStep(along, rules), panels, panels == 1 ? (Sentence)"backing" : "backing panels", IsStrip: true));
        if (panels > 1)
        {
            AddStep($"Sew the {panels} backing panels of {backing.Letter} together along their long sides, selvages cut away.", width - Both, height - Both);
        }
    }

    private int Panels(Length across, Length usable) => JoinedStrips.Count(across, usable, rules.SeamAllowance);

    private void Add(string letter, Length width, Length height, int count, Sentence use)
    {
        if (count > 0)
        {
            pieces.Add(new(letter, width, height, count, use));
        }
    }

    private void AddStep(Sentence text) => AddStep(text, Width, Height);

    private void AddStep(Sentence text, Length width, Length height) => steps.Add(new(0, text, width + Both, height + Both, 1, 0, 0, 0, 0));

    private static Sentence Rows(int count) => count == 1 ? (Sentence)"1 row" : $"{count} rows";
}
