using System.Globalization;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;
using KittingBee.Web.Blocks;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;

namespace KittingBee.Web.Pages.Blocks;

/// <summary>A project as typed. Parts whose fabric is left empty are left out.</summary>
public sealed class ProjectForm
{
    public string? Name { get; set; }

    public string? Across { get; set; }

    public string? Down { get; set; }

    public ProjectSetting Setting { get; set; }

    public string? Alternate { get; set; }

    public string? Triangles { get; set; }

    public string? Sashing { get; set; }

    public string? SashingWidth { get; set; }

    public string? Cornerstones { get; set; }

    public bool Outside { get; set; }

    /// <summary>A letter and a finished width on each line, from the inside out.</summary>
    public string? Borders { get; set; }

    public string? Binding { get; set; }

    public string? BindingStrip { get; set; }

    public string? Backing { get; set; }

    public string? Overhang { get; set; }

    public string? BackingWidth { get; set; }

    /// <summary>Fabrics beyond the block's own, for <see cref="FabricLines"/>.</summary>
    public string? Fabrics { get; set; }

    /// <summary>The version that the form was opened on.</summary>
    public long Version { get; set; }

    /// <summary>What a first look starts from: three by three, bound.</summary>
    public static ProjectForm Begin(Block block, ClassHabits habits) => new()
    {
        Name = Say($"{block.Name} project"),
        Across = "3",
        Down = "3",
        SashingWidth = habits.Metric ? "4" : "1 1/2",
        BindingStrip = habits.Metric ? "6" : "2 1/2",
        Overhang = habits.Metric ? "10" : "4",
        Binding = block.Fabrics[0].Letter,
        Triangles = block.Fabrics[0].Letter,
    };

    /// <summary>A stored project, in sizes that read back exactly. Parts that it lacks keep what a first look offers for them.</summary>
    public static ProjectForm Of(Project project, string name, long version, Block block, ClassHabits habits)
    {
        var form = Begin(block, habits);
        form.Name = name;
        form.Version = version;
        form.Across = project.Across.ToString(CultureInfo.InvariantCulture);
        form.Down = project.Down.ToString(CultureInfo.InvariantCulture);
        form.Setting = project.Setting;
        form.Alternate = project.Alternate;
        form.Triangles = project.SettingTriangles ?? form.Triangles;
        form.Sashing = project.Sashing?.Letter;
        form.SashingWidth = project.Sashing is { } sashing ? habits.InField(sashing.Width) : form.SashingWidth;
        form.Cornerstones = project.Sashing?.Cornerstones;
        form.Outside = project.Sashing?.Outside ?? false;
        form.Borders = string.Join('\n', project.Borders.Select(border => $"{border.Letter} {habits.InField(border.Width)}"));
        form.Binding = project.Binding?.Letter;
        form.BindingStrip = project.Binding is { } binding ? habits.InField(binding.StripWidth) : form.BindingStrip;
        form.Backing = project.Backing?.Letter;
        form.Overhang = project.Backing is { } backing ? habits.InField(backing.Overhang) : form.Overhang;
        form.BackingWidth = project.Backing?.UsableWidth is { } width ? habits.InField(width) : null;
        form.Fabrics = FabricLines.Write(project.Fabrics);
        return form;
    }

    /// <summary>What was typed, as the end of an address.</summary>
    public QueryString ToQuery() => QueryString.Create(new Dictionary<string, string?>
    {
        ["project.Name"] = Name,
        ["project.Across"] = Across,
        ["project.Down"] = Down,
        ["project.Setting"] = Setting.ToString(),
        ["project.Alternate"] = Alternate,
        ["project.Triangles"] = Triangles,
        ["project.Sashing"] = Sashing,
        ["project.SashingWidth"] = SashingWidth,
        ["project.Cornerstones"] = Cornerstones,
        ["project.Outside"] = Outside ? "true" : "false",
        ["project.Borders"] = Borders,
        ["project.Binding"] = Binding,
        ["project.BindingStrip"] = BindingStrip,
        ["project.Backing"] = Backing,
        ["project.Overhang"] = Overhang,
        ["project.BackingWidth"] = BackingWidth,
        ["project.Fabrics"] = Fabrics,
    });

    public Project Read(FormReader reader)
    {
        var onPoint = Setting == ProjectSetting.OnPoint;
        return new Project
        {
            Across = reader.Whole(nameof(Across), Across, "Blocks across", 1, ProjectChecks.MostBlocks),
            Down = reader.Whole(nameof(Down), Down, "Blocks down", 1, ProjectChecks.MostBlocks),
            Setting = Setting,
            Alternate = onPoint ? Letter(Alternate) : null,
            SettingTriangles = onPoint ? Letter(Triangles) : null,
            Sashing = Letter(Sashing) is { } sashing
                ? new(sashing, reader.Size(nameof(SashingWidth), SashingWidth, "The sashing’s finished width"), Letter(Cornerstones), Outside)
                : null,
            Borders = ReadBorders(reader),
            Binding = Letter(Binding) is { } binding ? new(binding, reader.Size(nameof(BindingStrip), BindingStrip, "The binding’s strip width")) : null,
            Backing = Letter(Backing) is { } backing
                ? new(
                    backing,
                    reader.Size(nameof(Overhang), Overhang, "The backing’s overhang", mayBeZero: true),
                    string.IsNullOrWhiteSpace(BackingWidth) ? null : reader.Size(nameof(BackingWidth), BackingWidth, "The backing’s usable width"))
                : null,
            Fabrics = FabricLines.Read(Fabrics ?? ""),
        };
    }

    private static string? Letter(string? text) => string.IsNullOrWhiteSpace(text) ? null : text.Trim().ToUpperInvariant();

    private List<Border> ReadBorders(FormReader reader)
    {
        var borders = new List<Border>();
        foreach (var line in (Borders ?? "").Split('\n').Select(line => line.Trim()).Where(line => line.Length > 0))
        {
            var width = line.Length > 1 ? line[1..].Trim(' ', '\t', ':') : "";
            if (!char.IsAsciiLetter(line[0]) || width.Length == 0)
            {
                reader.Wrong(nameof(Borders), $"The border “{line}” does not read: give a fabric’s letter and a finished width, such as B 2 1/2.");
                continue;
            }

            borders.Add(new(char.ToUpperInvariant(line[0]).ToString(), reader.Size(nameof(Borders), width, $"The width of border {borders.Count + 1}")));
        }

        return borders;
    }
}
