using System.Globalization;
using KittingBee.Planning;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Classes;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Forms;
using KittingBee.Web.Showing;
using KittingBee.Web.Storage;

namespace KittingBee.Web.Pages.Classes;

/// <summary>What a class is, as typed. Prices have a page of their own.</summary>
public sealed class ClassForm
{
    private const int FirstYear = 2000;
    private const int LastYear = 2199;

    public string? Title { get; set; }

    public string? HeldOn { get; set; }

    public string? HeldTime { get; set; }

    public string? Place { get; set; }

    /// <summary>A block's number, a project's after <c>project-</c>, or empty to keep the copy that the class has.</summary>
    public string? BlockId { get; set; }

    public string? Units { get; set; }

    public string? Paper { get; set; }

    public string? Currency { get; set; }

    public string? SeamAllowance { get; set; }

    public string? CuttingStep { get; set; }

    public Methods Methods { get; set; } = new();

    public string? BlocksPerKit { get; set; }

    public string? Layers { get; set; }

    public string? LongestStrip { get; set; }

    public string? SquaringUp { get; set; }

    public string? Places { get; set; }

    public string? KitsOnly { get; set; }

    public string? SpareKits { get; set; }

    public string? SampleKits { get; set; }

    public string? SparePercent { get; set; }

    public string? MiscutPercent { get; set; }

    public string? PromisePercent { get; set; }

    public long Version { get; set; }

    public static ClassForm From(ClassRecord record)
    {
        var habits = new ClassHabits(record.Metric, record.Paper == "a4", record.Currency);
        return new ClassForm
        {
            Title = record.Title,
            HeldOn = record.HeldOn?.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture),
            HeldTime = record.HeldTime,
            Place = record.Place,
            Units = record.Units,
            Paper = record.Paper,
            Currency = record.Currency,
            SeamAllowance = habits.InField(record.SeamAllowance),
            CuttingStep = habits.InField(record.CuttingStep),
            Methods = StoredJson.Read<Methods>(record.MethodsJson),
            BlocksPerKit = Text(record.BlocksPerKit),
            Layers = Text(record.Layers),
            LongestStrip = habits.InField(record.LongestStrip),
            SquaringUp = habits.InField(record.SquaringUp),
            Places = Text(record.Places),
            KitsOnly = Text(record.KitsOnly),
            SpareKits = Text(record.SpareKits),
            SampleKits = Text(record.SampleKits),
            SparePercent = MoneyText.PercentInField(record.SparePercent),
            MiscutPercent = MoneyText.PercentInField(record.MiscutPercent),
            PromisePercent = MoneyText.PercentInField(record.PromisePercent),
            Version = record.Version,
        };
    }

    /// <summary>The class with what was typed put over it.</summary>
    /// <param name="reader">Takes the messages; reads in the units that were typed here.</param>
    /// <param name="record">The class as stored, or a new one.</param>
    /// <param name="block">The block of <see cref="BlockId"/>, or null to keep the class's copy.</param>
    /// <param name="project">What the block is set into, or null for the block alone.</param>
    public ClassRecord Read(FormReader reader, ClassRecord record, StoredBlock? block, StoredProject? project = null)
    {
        if (block is null && record.BlockJson is null && record.TypedLines is null)
        {
            reader.Wrong(nameof(BlockId), "Choose the block that the class sews.");
        }

        var heldOn = ReadDate(reader);
        return record with
        {
            Title = reader.Needed(nameof(Title), Title, "The title", 120),
            HeldOn = heldOn,
            HeldTime = reader.Optional(nameof(HeldTime), HeldTime, "The time", 60),
            Place = reader.Optional(nameof(Place), Place, "The place", 120),
            BlockId = block?.Id ?? record.BlockId,
            BlockName = project?.Name ?? block?.Name ?? record.BlockName,
            BlockJson = block is null ? record.BlockJson : block.Json,
            TypedLines = block is null ? record.TypedLines : block.TypedLines,
            ProjectJson = block is null ? record.ProjectJson : project?.Json,
            Units = reader.Choice(nameof(Units), Units, "Measures", "inches", "centimetres"),
            Paper = reader.Choice(nameof(Paper), Paper, "Paper", "letter", "a4"),
            Currency = ReadCurrency(reader),
            SeamAllowance = reader.Size(nameof(SeamAllowance), SeamAllowance, "The seam allowance", mayBeZero: true),
            CuttingStep = reader.Size(nameof(CuttingStep), CuttingStep, "The cutting step"),
            MethodsJson = StoredJson.Write(Methods),
            BlocksPerKit = reader.Whole(nameof(BlocksPerKit), BlocksPerKit, "Blocks in a kit", 1, BlockLimits.Copies),
            Layers = reader.Whole(nameof(Layers), Layers, "Layers cut at once", 1, 12),
            LongestStrip = reader.Size(nameof(LongestStrip), LongestStrip, "The longest ruler", reader.Limit(6, 15), reader.Limit(120, 300)),
            SquaringUp = reader.Size(nameof(SquaringUp), SquaringUp, "The squaring-up allowance", Length.Zero, reader.Limit(6, 15)),
            Places = ReadOptional(reader, nameof(Places), Places, "Places", 1),
            KitsOnly = ReadOptional(reader, nameof(KitsOnly), KitsOnly, "The number of kits", 1),
            SpareKits = reader.Whole(nameof(SpareKits), SpareKits, "Spare kits", 0, 1000),
            SampleKits = reader.Whole(nameof(SampleKits), SampleKits, "Teacher’s samples", 0, 100),
            SparePercent = reader.Percent(nameof(SparePercent), SparePercent, "Spare pieces"),
            MiscutPercent = string.IsNullOrWhiteSpace(MiscutPercent) ? null : reader.Percent(nameof(MiscutPercent), MiscutPercent, "The miscut share", SpareCount.MostMiscut * 100m),
            PromisePercent = ReadPromise(reader),
            Version = Version,
        };
    }

    private DateOnly? ReadDate(FormReader reader)
    {
        if (string.IsNullOrWhiteSpace(HeldOn))
        {
            return null;
        }

        if (DateOnly.TryParseExact(HeldOn.Trim(), "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day))
        {
            if (day.Year is < FirstYear or > LastYear)
            {
                reader.Wrong(nameof(HeldOn), $"The date is “{HeldOn}”: the year must be from {FirstYear} to {LastYear}. Check the year.");
            }

            return day;
        }

        reader.Wrong(nameof(HeldOn), $"The date is “{HeldOn}”: write it as year-month-day, such as 2027-02-13.");
        return null;
    }

    private string ReadCurrency(FormReader reader)
    {
        var code = (Currency ?? "").Trim().ToUpperInvariant();
        if (code.Length != 3 || !code.All(char.IsAsciiLetterUpper))
        {
            reader.Wrong(nameof(Currency), $"The currency is “{Currency}”: type its three letters, such as USD or EUR.");
        }

        return code;
    }

    private decimal ReadPromise(FormReader reader)
    {
        var promise = reader.Percent(nameof(PromisePercent), PromisePercent, "The promise", 99.99m);
        if (promise < 0.01m)
        {
            reader.Wrong(nameof(PromisePercent), $"The promise is {PromisePercent}: it must be from 0.01 to 99.99.");
        }

        return promise;
    }

    private static int? ReadOptional(FormReader reader, string field, string? text, Sentence what, int least) =>
        string.IsNullOrWhiteSpace(text) ? null : reader.Whole(field, text, what, least, 10_000);

    private static string? Text(int? number) => number?.ToString(CultureInfo.InvariantCulture);
}
