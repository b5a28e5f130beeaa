using System.IO.Compression;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using ClosedXML.Excel;
using KittingBee.Web.Classes;
using KittingBee.Web.Exchange;
using KittingBee.Web.Packing;
using KittingBee.Web.Settling;

namespace KittingBee.Web.Tests.Fuzzing;

/// <summary>Spoiled files of a guild or a class, and spoiled workbooks that come back filled in: read, or refused with the reason.</summary>
public sealed class FilesTests
{
    [Fact]
    public async Task GuildAndClassFiles_SpoiledAsFiles()
    {
        using var guild = new GuildHost();
        var classId = await SampleGuild.Fill(guild, students: 2);
        byte[][] good = [guild.Get<FileWriter>().Guild(people: true), guild.Get<FileWriter>().Class(classId, people: true)!];
        foreach (var file in good)
        {
            Assert.Null(await TakeIn(file));
        }

        await FuzzRun.Over("guild and class files, the file spoiled", FuzzRun.Inputs(0.02), good, TakeIn);
    }

    /// <summary>Whole JSON with one wrong value gets as far as the database and the look at what stands inside its texts.</summary>
    [Fact]
    public async Task ClassFiles_SpoiledInAValue()
    {
        using var guild = new GuildHost();
        var classId = await SampleGuild.Fill(guild, students: 2);
        var file = guild.Get<FileWriter>().Class(classId, people: true)!;
        var number = 0;
        await FuzzRun.Over("class files, a value spoiled", FuzzRun.Inputs(0.01), [.. new[] { "16256000", "inches", "2031-04-12", "2031-04-12T09:00:00.000Z", "#f1e9dc", "A 4 squares 4 1/2", "{}", "[1, 2]", SampleGuild.StarJson }.Select(Encoding.UTF8.GetBytes)], bytes =>
        {
            var root = JsonNode.Parse(file)!;
            var rows = root["tables"]!.AsObject().SelectMany(table => table.Value!.AsArray()).Select(row => row!.AsObject());
            var cells = rows.SelectMany(row => row.Select(cell => (Row: row, Column: cell.Key))).ToList();
            var (place, column) = cells[number++ * 7919 % cells.Count]; // A prime: the places take turns, and come in no order.
            place[column] = IsNumber(bytes, out var value) ? value : Encoding.UTF8.GetString(bytes);
            return TakeIn(JsonSerializer.SerializeToUtf8Bytes(root));
        });
    }

    [Fact]
    public async Task FilledInWorkbooks()
    {
        using var guild = new GuildHost();
        var classId = await SampleGuild.Fill(guild, students: 2);
        var plan = (await guild.Get<ClassPlanning>().Plan(classId))!;
        var bags = Bags.Of(plan, guild.Get<MarkDesk>().Table(classId), []);
        var good = FilledIn(plan, bags);
        FilledInSheet Read(byte[] bytes) => new FilledInSheetReader(plan, bags, new ClothRecords([], [], [], [])).Read(new MemoryStream(bytes));

        var whole = Read(good);
        Assert.Empty(whole.Problems);
        Assert.Equal((5, 1, 1), (whole.Entries.Count, whole.Ticks.Count, whole.Shorts.Count));

        await FuzzRun.Over("filled-in workbooks, the file spoiled", FuzzRun.Inputs(0.01), [good], bytes => Task.FromResult(Read(bytes)));
        foreach (var part in Parts(good))
        {
            await FuzzRun.Over($"filled-in workbooks, {part.Key} spoiled", FuzzRun.Inputs(0.01), [part.Value], bytes => Task.FromResult(Read(With(good, part.Key, bytes))));
        }
    }

    // Null where it was taken, or what was said; anything else that is thrown is the finding.
    private static async Task<string?> TakeIn(byte[] file)
    {
        var folder = Directory.CreateTempSubdirectory("kitting-bee-fuzz-").FullName;
        try
        {
            await FileReader.Read(file, Path.Combine(folder, "file.db"));
            return null;
        }
        catch (FileRefusedException e)
        {
            Assert.False(string.IsNullOrWhiteSpace(e.Message));
            return e.Message;
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    private static bool IsNumber(byte[] bytes, out long number) => System.Buffers.Text.Utf8Parser.TryParse(bytes, out number, out var read) && read == bytes.Length;

    private static byte[] FilledIn(ClassPlan plan, Bags bags)
    {
        using var book = new XLWorkbook();
        var settle = book.AddWorksheet("Settle");
        settle.Cell(1, 1).InsertData(new object[][] { ["Fabric", "Bought (yd)", "Paid", "Spoiled", "Left", "Remnants"], [plan.Fabrics[0].Name, 1.5, 18, "4 in", 0.25, "21 x 13; 10 x 8"] });
        var kits = book.AddWorksheet("Kits");
        var lines = bags.All[0].Lines;
        kits.Cell(1, 1).InsertData(new object[][] { ["Kit", "Letter", "Width", "Height", "In the bag"], Row(lines[0], "x"), Row(lines[1], "short 1") });
        using var file = new MemoryStream();
        book.SaveAs(file);
        return file.ToArray();

        object[] Row(BagLine line, string tick) => [bags.All[0].Kit.Number, line.Line.Letter, line.Line.Width.Inches, line.Line.Height.Inches, tick];
    }

    private static Dictionary<string, byte[]> Parts(byte[] workbook)
    {
        using var package = new ZipArchive(new MemoryStream(workbook));
        return package.Entries.Where(entry => entry.FullName.StartsWith("xl/worksheets/sheet", StringComparison.Ordinal) || entry.Name == "sharedStrings.xml").ToDictionary(entry => entry.FullName, entry =>
        {
            using var stream = entry.Open();
            using var bytes = new MemoryStream();
            stream.CopyTo(bytes);
            return bytes.ToArray();
        });
    }

    private static byte[] With(byte[] workbook, string part, byte[] content)
    {
        using var file = new MemoryStream();
        file.Write(workbook);
        using (var package = new ZipArchive(file, ZipArchiveMode.Update, leaveOpen: true))
        {
            package.GetEntry(part)!.Delete();
            using var stream = package.CreateEntry(part).Open();
            stream.Write(content);
        }

        return file.ToArray();
    }
}
