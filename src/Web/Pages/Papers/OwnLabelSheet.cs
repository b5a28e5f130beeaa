using System.Globalization;
using KittingBee.Planning.Measures;
using KittingBee.Web.Documents.Labels;

namespace KittingBee.Web.Pages.Papers;

/// <summary>A label sheet as typed: the measures that its packet gives.</summary>
public sealed class OwnLabelSheet
{
    public const string Key = "own";

    private const int MostLabels = 200;

    // A kit's number and name in type that can be read: common practice, no source.
    private static readonly Length LeastSide = Length.FromInches(0, 1, 2);

    public string? Columns { get; set; }

    public string? Rows { get; set; }

    public string? Width { get; set; }

    public string? Height { get; set; }

    public string? Left { get; set; }

    public string? Top { get; set; }

    public string? PitchAcross { get; set; }

    public string? PitchDown { get; set; }

    /// <summary>The sheet, or what is wrong with the measures, each named with the remedy.</summary>
    public (LabelSheet? Sheet, IReadOnlyList<string> Problems) Read(bool a4, bool metric)
    {
        var problems = new List<string>();
        var sheet = new LabelSheet(
            Key, Say("Your own label sheet"), a4, Whole(Say("Labels across"), Columns), Whole(Say("Labels down"), Rows), Size(Say("Width of a label"), Width), Size(Say("Height of a label"), Height),
            Size(Say("Left margin"), Left, least: 0), Size(Say("Top margin"), Top, least: 0), Size(Say("Pitch across"), PitchAcross), Size(Say("Pitch down"), PitchDown));
        if (problems.Count == 0)
        {
            problems.AddRange(sheet.Misfits());
            if (Length.Min(sheet.Width, sheet.Height) < LeastSide)
            {
                problems.Add(Say($"A label of {Width} × {Height} is too small to read: give it at least {LengthText.Write(LeastSide, metric ? LengthStyle.Centimetres : LengthStyle.Eighths)} each way."));
            }
        }

        return problems.Count == 0 ? (sheet, []) : (null, problems);

        int Whole(string what, string? text)
        {
            if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number is > 0 and <= MostLabels)
            {
                return number;
            }

            problems.Add(Say($"{what}: “{text}” is not a whole number from 1 to {MostLabels}."));
            return 1;
        }

        Length Size(string what, string? text, int least = 1)
        {
            var reading = LengthText.Read(text, metric ? LengthUnit.Centimetre : LengthUnit.Inch);
            if (!reading.IsLength)
            {
                problems.Add($"{what}: {Say(reading.Why!)}");
            }
            else if (reading.Value < Length.FromTicks(least) || reading.Value > Length.FromInches(20))
            {
                problems.Add(Say($"{what}: {text} does not fit a sheet of paper. Measure it, or read it off the packet."));
            }

            return reading.Value;
        }
    }
}
