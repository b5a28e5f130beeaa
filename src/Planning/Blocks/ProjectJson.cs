using System.Text;
using System.Text.Json;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>A project read from JSON, or what is wrong with the text.</summary>
public sealed record ProjectReading(Project? Project, IReadOnlyList<Problem> Problems);

/// <summary>Reads and writes a project as JSON; lengths are inches or the text forms.</summary>
public static class ProjectJson
{
    /// <summary>The version that is written; a text without one counts as version 1.</summary>
    public const int Version = 1;

    private static readonly string[] Fields =
        ["version", "across", "down", "setting", "alternate", "settingTriangles", "sashing", "borders", "binding", "backing", "fabrics"];

    private static readonly string[] SashingFields = ["fabric", "width", "cornerstones", "outside"];
    private static readonly string[] BorderFields = ["fabric", "width"];
    private static readonly string[] BindingFields = ["fabric", "stripWidth"];
    private static readonly string[] BackingFields = ["fabric", "overhang", "usableWidth"];
    private static readonly string[] FabricFields = ["letter", "name"];
    private static readonly JsonDocumentOptions Options = new() { MaxDepth = 8, AllowDuplicateProperties = false };
    private static readonly JsonWriterOptions Indented = new() { Indented = true };

    /// <summary>Reads a project's form (not yet whether it fits its block); never throws on bad text.</summary>
    public static ProjectReading Read(string json)
    {
        try
        {
            using var document = JsonDocument.Parse(json, Options);
            var fields = new JsonFields();
            var project = Read(document.RootElement, fields);
            return new(fields.Problems.Count == 0 ? project : null, fields.Problems);
        }
        catch (JsonException fault)
        {
            return new(null, [new("", $"The text is not JSON: line {(fault.LineNumber ?? 0) + 1}, place {(fault.BytePositionInLine ?? 0) + 1}. Check the quotes, commas and brackets there.")]);
        }
        catch (InvalidOperationException)
        {
            return new(null, [BlockJson.HalfACharacter("")]);
        }
    }

    /// <summary>Writes a project so that <see cref="Read(string)"/> gives it back exactly.</summary>
    public static string Write(Project project)
    {
        using var stream = new MemoryStream();
        using (var writer = new Utf8JsonWriter(stream, Indented))
        {
            writer.WriteStartObject();
            writer.WriteNumber("version", Version);
            writer.WriteNumber("across", project.Across);
            writer.WriteNumber("down", project.Down);
            writer.WriteString("setting", project.Setting == ProjectSetting.OnPoint ? "on-point" : "straight");
            writer.WriteString("alternate", project.Alternate);
            writer.WriteString("settingTriangles", project.SettingTriangles);
            WriteParts(writer, project);
            writer.WriteStartArray("fabrics");
            foreach (var fabric in project.Fabrics)
            {
                writer.WriteStartObject();
                writer.WriteString("letter", fabric.Letter);
                writer.WriteString("name", fabric.Name);
                writer.WriteEndObject();
            }

            writer.WriteEndArray();
            writer.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    private static void WriteParts(Utf8JsonWriter writer, Project project)
    {
        if (project.Sashing is { } sashing)
        {
            writer.WriteStartObject("sashing");
            writer.WriteString("fabric", sashing.Letter);
            writer.WriteNumber("width", BlockJsonWriter.Inches(sashing.Width));
            writer.WriteString("cornerstones", sashing.Cornerstones);
            writer.WriteBoolean("outside", sashing.Outside);
            writer.WriteEndObject();
        }

        writer.WriteStartArray("borders");
        foreach (var border in project.Borders)
        {
            writer.WriteStartObject();
            writer.WriteString("fabric", border.Letter);
            writer.WriteNumber("width", BlockJsonWriter.Inches(border.Width));
            writer.WriteEndObject();
        }

        writer.WriteEndArray();
        if (project.Binding is { } binding)
        {
            writer.WriteStartObject("binding");
            writer.WriteString("fabric", binding.Letter);
            writer.WriteNumber("stripWidth", BlockJsonWriter.Inches(binding.StripWidth));
            writer.WriteEndObject();
        }

        if (project.Backing is { } backing)
        {
            writer.WriteStartObject("backing");
            writer.WriteString("fabric", backing.Letter);
            writer.WriteNumber("overhang", BlockJsonWriter.Inches(backing.Overhang));
            if (backing.UsableWidth is { } width)
            {
                writer.WriteNumber("usableWidth", BlockJsonWriter.Inches(width));
            }

            writer.WriteEndObject();
        }
    }

    private static Project? Read(JsonElement element, JsonFields fields)
    {
        if (!fields.IsObject(element, "", "a project", Fields))
        {
            return null;
        }

        if (element.TryGetProperty("version", out var version) && !(version.ValueKind == JsonValueKind.Number && version.TryGetInt32(out var number) && number == Version))
        {
            fields.Add("", "version", $"This project is of version {JsonFields.Shown(version)}; this program reads version {Version}. Save it again from an older program, or update this one.");
            return null;
        }

        return new Project
        {
            Across = Needed(fields, element, "across"),
            Down = Needed(fields, element, "down"),
            Setting = Setting(element, fields),
            Alternate = fields.Text(element, "alternate", "", required: false),
            SettingTriangles = fields.Text(element, "settingTriangles", "", required: false),
            Sashing = fields.Part(element, "sashing", "a sashing", SashingFields, (part, path) => new Sashing(
                fields.Text(part, "fabric", path, required: true) ?? "",
                fields.Length(part, "width", path, required: true) ?? Length.Zero,
                fields.Text(part, "cornerstones", path, required: false),
                fields.YesOrNo(part, "outside", path) ?? false)),
            Borders = fields.Items(element, "borders", "", required: false, (part, path) => fields.IsObject(part, path, "a border", BorderFields)
                ? new Border(fields.Text(part, "fabric", path, required: true) ?? "", fields.Length(part, "width", path, required: true) ?? Length.Zero)
                : null) ?? [],
            Binding = fields.Part(element, "binding", "a binding", BindingFields, (part, path) => new Binding(
                fields.Text(part, "fabric", path, required: true) ?? "",
                fields.Length(part, "stripWidth", path, required: true) ?? Length.Zero)),
            Backing = fields.Part(element, "backing", "a backing", BackingFields, (part, path) => new Backing(
                fields.Text(part, "fabric", path, required: true) ?? "",
                fields.Length(part, "overhang", path, required: true) ?? Length.Zero,
                fields.Length(part, "usableWidth", path))),
            Fabrics = fields.Items(element, "fabrics", "", required: false, (part, path) => fields.IsObject(part, path, "a fabric", FabricFields)
                ? new BlockFabric(fields.Text(part, "letter", path, required: true) ?? "", fields.Text(part, "name", path, required: false) ?? "")
                : null) ?? [],
        };
    }

    private static int Needed(JsonFields fields, JsonElement element, string name)
    {
        if (!element.TryGetProperty(name, out _))
        {
            fields.Missing("", name);
        }

        return fields.Whole(element, name, "") ?? 0;
    }

    private static ProjectSetting Setting(JsonElement element, JsonFields fields)
    {
        switch (fields.Text(element, "setting", "", required: false))
        {
            case null or "straight":
                return ProjectSetting.Straight;
            case "on-point":
                return ProjectSetting.OnPoint;
            case var other:
                fields.Add("", "setting", $"\"{JsonFields.Short(other)}\" is not a setting. Use straight or on-point.");
                return ProjectSetting.Straight;
        }
    }
}
