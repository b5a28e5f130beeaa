using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Where a block stands in a project.</summary>
/// <param name="Middle">Its middle, from the upper left corner of the whole.</param>
/// <param name="OnPoint">True when it is turned by an eighth.</param>
public sealed record BlockPlace(PatchPoint Middle, bool OnPoint);

/// <summary>A whole project for drawing, finished size. On point, points are rounded to the tick: nothing is cut from them.</summary>
/// <param name="Width">Finished width with borders.</param>
/// <param name="Height">Finished height with borders.</param>
/// <param name="Blocks">Every block, row by row.</param>
/// <param name="Patches">Everything else: sashing, squares and triangles between, borders; their unit is 0.</param>
public sealed record ProjectLayout(Length Width, Length Height, IReadOnlyList<BlockPlace> Blocks, IReadOnlyList<Patch> Patches)
{
    /// <summary>The layout of a good project of a good block; throws <see cref="ArgumentException"/> where either has problems.</summary>
    public static ProjectLayout Of(Block block, Project project)
    {
        if (BlockChecks.Check(block).Concat(ProjectChecks.Check(block, project)).FirstOrDefault() is { } problem)
        {
            throw new ArgumentException(problem.Message, nameof(project));
        }

        var maker = new Maker(PlacedBlock.Of(block), project);
        return maker.Make();
    }

    private sealed class Maker(PlacedBlock block, Project project)
    {
        private readonly List<BlockPlace> places = [];
        private readonly List<Patch> patches = [];
        private Length left;
        private Length top;
        private Length width;
        private Length height;

        public ProjectLayout Make()
        {
            var around = PlacedBlock.Total(project.Borders.Select(border => border.Width));
            (left, top) = (around, around);
            if (project.Setting == ProjectSetting.OnPoint)
            {
                OnPoint();
            }
            else
            {
                Straight();
            }

            foreach (var border in project.Borders)
            {
                var (right, bottom) = (left + width, top + height);
                Rectangle(border.Letter, left - border.Width, top, left, bottom);
                Rectangle(border.Letter, right, top, right + border.Width, bottom);
                Rectangle(border.Letter, left - border.Width, top - border.Width, right + border.Width, top);
                Rectangle(border.Letter, left - border.Width, bottom, right + border.Width, bottom + border.Width);
                (left, top) = (left - border.Width, top - border.Width);
                (width, height) = (width + (border.Width * 2), height + (border.Width * 2));
            }

            return new(width, height, places, patches);
        }

        private void Straight()
        {
            var strip = project.Sashing?.Width ?? Length.Zero;
            var outside = project.Sashing is { Outside: true } ? strip : Length.Zero;
            width = (block.Width * project.Across) + (strip * (project.Across - 1)) + (outside * 2);
            height = (block.Height * project.Down) + (strip * (project.Down - 1)) + (outside * 2);
            if (project.Sashing is { } sashing)
            {
                Sashes(sashing, outside);
            }

            for (var row = 0; row < project.Down; row++)
            {
                for (var column = 0; column < project.Across; column++)
                {
                    var x = left + outside + ((block.Width + strip) * column);
                    var y = top + outside + ((block.Height + strip) * row);
                    places.Add(new(new(x + block.Width.DivideRoundingDown(2), y + block.Height.DivideRoundingDown(2)), OnPoint: false));
                }
            }
        }

        private void Sashes(Sashing sashing, Length outside)
        {
            var columns = Stripes(project.Across, block.Width, sashing, outside, left);
            var rows = Stripes(project.Down, block.Height, sashing, outside, top);
            foreach (var y in rows)
            {
                if (sashing.Cornerstones is null)
                {
                    Rectangle(sashing.Letter, left, y, left + width, y + sashing.Width);
                    continue;
                }

                foreach (var x in columns)
                {
                    Rectangle(sashing.Cornerstones, x, y, x + sashing.Width, y + sashing.Width);
                }

                foreach (var x in Starts(project.Across, block.Width, sashing, outside, left))
                {
                    Rectangle(sashing.Letter, x, y, x + block.Width, y + sashing.Width);
                }
            }

            foreach (var y in Starts(project.Down, block.Height, sashing, outside, top))
            {
                foreach (var x in columns)
                {
                    Rectangle(sashing.Letter, x, y, x + sashing.Width, y + block.Height);
                }
            }
        }

        /// <summary>Where the strips between (and outside) start, along one direction.</summary>
        private static List<Length> Stripes(int blocks, Length side, Sashing sashing, Length outside, Length origin) =>
            [.. Starts(blocks + 1, side, sashing, outside, origin).Select(start => start - sashing.Width).Skip(sashing.Outside ? 0 : 1).Take(blocks + (sashing.Outside ? 1 : -1))];

        private static List<Length> Starts(int blocks, Length side, Sashing sashing, Length outside, Length origin) =>
            [.. Enumerable.Range(0, blocks).Select(index => origin + outside + ((side + sashing.Width) * index))];

        private void OnPoint()
        {
            var net = new OnPointNet(block.Width, project.Sashing?.Width ?? Length.Zero, left, top);
            (width, height) = (net.Across(project.Across), net.Across(project.Down));
            for (var row = 0; row < project.Down; row++)
            {
                for (var column = 0; column < project.Across; column++)
                {
                    var middle = net.Middle(2 * column, 2 * row);
                    places.Add(new(middle, OnPoint: true));
                    if (project.Sashing is { } sashing)
                    {
                        SashesOnPoint(sashing, net, middle, column, row);
                    }
                }
            }

            for (var row = 1; row < project.Down; row++)
            {
                for (var column = 1; column < project.Across; column++)
                {
                    var middle = net.Middle((2 * column) - 1, (2 * row) - 1);
                    if (project.Alternate is { } alternate)
                    {
                        Add(alternate, net.Square(middle));
                    }
                    else
                    {
                        places.Add(new(middle, OnPoint: true));
                    }
                }
            }

            foreach (var triangle in net.Triangles(project.Across, project.Down))
            {
                Add(project.SettingTriangles!, triangle);
            }
        }

        private void SashesOnPoint(Sashing sashing, OnPointNet net, PatchPoint middle, int column, int row)
        {
            foreach (var sash in net.Sashes(middle))
            {
                Add(sashing.Letter, sash);
            }

            foreach (var stone in net.Cornerstones(middle, leftmost: column == 0, topmost: row == 0))
            {
                Add(sashing.Cornerstones!, stone);
            }
        }

        private void Rectangle(string letter, Length fromX, Length fromY, Length toX, Length toY) =>
            Add(letter, new(fromX, fromY), new(toX, fromY), new(toX, toY), new(fromX, toY));

        private void Add(string letter, params PatchPoint[] corners) => patches.Add(new(letter, corners, 0, IsTemplate: false));
    }
}
