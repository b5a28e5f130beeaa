using System.Globalization;
using ClosedXML.Excel;
using KittingBee.Planning.Measures;
using KittingBee.Web.Classes;
using KittingBee.Web.Documents.Workbook;
using KittingBee.Web.Packing;
using KittingBee.Web.Storage;
using KittingBee.Web.Uploads;

namespace KittingBee.Web.Settling;

/// <summary>Reads the Settle and Kits sheets of a class's workbook after people have filled them in. Columns are found by their headings.</summary>
public sealed class FilledInSheetReader(ClassPlan plan, Bags bags, ClothRecords records)
{
    private const int HighestHeadingRow = 8;

    // Sizes in the sheet are decimals of the cutting unit; a thousandth tells any two cut sizes apart.
    private const decimal SameSize = 0.001m;

    private readonly List<SheetEntry> entries = [];
    private readonly List<SheetTick> ticks = [];
    private readonly List<SheetShort> shorts = [];
    private readonly List<string> problems = [];

    /// <summary>What is new in it. A file that is no workbook, or not this class's, comes back as a problem.</summary>
    public FilledInSheet Read(Stream file)
    {
        if (WorkbookGuard.Fault(file) is { } fault)
        {
            return new([], [], [], [fault]);
        }

        XLWorkbook book;
        try
        {
            book = new XLWorkbook(file);
        }
#pragma warning disable CA1031 // The library answers a damaged file with whatever went wrong inside it.
        catch (Exception)
#pragma warning restore CA1031
        {
            return new([], [], [], [Say("The file cannot be read as an .xlsx workbook: save it as one from the spreadsheet program, and choose it again.")]);
        }

        using (book)
        {
            var settle = Find(book, SheetWords.Fabric, SheetWords.Remnants);
            var kits = Find(book, SheetWords.Kit, SheetWords.InTheBag);
            if (settle is null && kits is null)
            {
                problems.Add(Say("The workbook has neither a Settle nor a Kits sheet of ours: choose the workbook of this class."));
            }

            if (settle is { } filled)
            {
                ReadSettle(filled);
            }

            if (kits is { } ticked)
            {
                ReadKits(ticked);
            }
        }

        return new(entries, ticks, shorts, problems);
    }

    private void ReadSettle(Table table)
    {
        var metric = table.Heading(SheetWords.Bought).Contains("(m)", StringComparison.Ordinal);
        foreach (var row in table.Rows())
        {
            var name = table.Text(row, SheetWords.Fabric);
            if (name.Length == 0)
            {
                continue;
            }

            if (plan.Fabrics.FirstOrDefault(fabric => fabric.Name == name) is not { } fabric)
            {
                problems.Add(Say($"Row {row}: “{name}” is no fabric of this class. Nothing of the row is taken."));
                continue;
            }

            var unit = metric ? " m" : " yd";
            var bought = Amount(table.Text(row, SheetWords.Bought), unit);
            var paid = table.Text(row, SheetWords.Paid);
            var recorded = records.Purchases.Where(purchase => purchase.FabricId == fabric.FabricId).Select(purchase => purchase.Length).ToList();
            if (bought.Length > 0 && recorded.Count == 0)
            {
                entries.Add(new("bought", fabric.FabricId, name, bought, Paid: paid.Length > 0 ? Money(paid) : "0", Note: Say("from the workbook")));
            }
            else if (bought.Length > 0 && !Is(bought, recorded.Aggregate((sum, length) => sum + length)))
            {
                problems.Add(Say($"{name}: the sheet says {bought} bought, but {plan.Habits.ShowYardage(recorded.Aggregate((sum, length) => sum + length))} is recorded. Take that entry back if the sheet is right."));
            }

            Spoiled(fabric, Amount(table.Text(row, SheetWords.Spoiled), unit));
            Left(fabric, Amount(table.Text(row, SheetWords.Left), unit), "");
            var remnants = FilledInSheet.Remnants(table.Text(row, SheetWords.Remnants), plan.Habits.Metric ? LengthUnit.Centimetre : LengthUnit.Inch);
            if (remnants is null)
            {
                problems.Add(Say($"{name}: the remnants “{table.Text(row, SheetWords.Remnants)}” cannot be read. Write them like 21 x 13; 10 x 8."));
            }

            foreach (var (width, length) in remnants ?? [])
            {
                Left(fabric, length, width);
            }
        }
    }

    private void Spoiled(PlannedFabric fabric, string length)
    {
        if (length.Length > 0 && !records.Given.Any(given => given.FabricId == fabric.FabricId && Is(length, given.Length)))
        {
            entries.Add(new("given", fabric.FabricId, fabric.Name, length, Note: Say("spoiled, from the workbook")));
        }
    }

    private void Left(PlannedFabric fabric, string length, string width)
    {
        var known = records.Leftovers.Any(left => left.FabricId == fabric.FabricId && Is(length, left.Length)
            && (width.Length == 0 ? left.Width == fabric.Request.Stock.Bolt?.UsableWidth : Is(width, left.Width)));
        if (length.Length > 0 && !known)
        {
            entries.Add(new("left", fabric.FabricId, fabric.Name, length, width, Note: Say("from the workbook")));
        }
    }

    private void ReadKits(Table table)
    {
        var ofNumber = bags.All.ToDictionary(bag => bag.Kit.Number.ToString(CultureInfo.InvariantCulture));
        foreach (var row in table.Rows())
        {
            var tick = table.Text(row, SheetWords.InTheBag);
            if (tick.Length == 0)
            {
                continue;
            }

            var number = table.Text(row, SheetWords.Kit);
            var line = ofNumber.GetValueOrDefault(number)?.Lines.FirstOrDefault(line =>
                line.Line.Letter == table.Text(row, SheetWords.Letter) && IsSize(table.Text(row, SheetWords.Width), line.Line.Width) && IsSize(table.Text(row, SheetWords.Height), line.Line.Height));
            if (line is null)
            {
                problems.Add(Say($"Kits, row {row}: kit {number} has no such line now. The row is left out."));
            }
            else if (SheetWords.Short.LengthIn(tick) is > 0 and var said)
            {
                ReadShort(ofNumber[number], line, tick[said..].Trim());
            }
            else if (tick is not ("✓" or "x" or "X"))
            {
                problems.Add(Say($"Kit {number}, {line.Line.Letter} {line.Line.Size(plan.Habits)} is marked “{tick}”, which is neither ✓ nor short. The row is left out."));
            }
            else if (line.State != KitState.Bagged)
            {
                var bag = ofNumber[number];
                ticks.Add(new(FormattableString.Invariant($"{KitState.Bagged} {bag.Kit.KitId} {line.Line.Key}"), Say($"{FilledInSheet.InWords(bag.Kit, line.Line, plan.Habits)} bagged")));
            }
        }
    }

    private void ReadShort(Bag bag, BagLine line, string count)
    {
        var words = FilledInSheet.InWords(bag.Kit, line.Line, plan.Habits);
        if (bag.FabricOf(line.Line.Letter) is null)
        {
            problems.Add(Say($"{char.ToUpperInvariant(words[0])}{words[1..]} is marked short, but the kit has no colourway, so it is not known which fabric to cut. Choose one on the roster, then read the workbook again."));
        }
        else if (!records.Shortages.Any(known => known.KitId == bag.Kit.KitId && known.Letter == line.Line.Letter && known.Width == line.Line.Width && known.Height == line.Line.Height))
        {
            shorts.Add(new(FormattableString.Invariant($"{Guid.NewGuid()} {bag.Kit.KitId} {line.Line.Key}"), count.Length > 0 ? count : FormattableString.Invariant($"{line.Line.Count}"), line.Line.Count, words));
        }
    }

    private bool IsSize(string cell, Length size) =>
        decimal.TryParse(cell, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value)
        && Math.Abs(value - (plan.Habits.Metric ? size.Millimetres / 10m : size.Inches)) < SameSize;

    private bool Is(string text, Length length) =>
        LengthText.Read(text, plan.Habits.Metric ? LengthUnit.Centimetre : LengthUnit.Inch) is { IsLength: true } reading && reading.Value == length;

    private static string Amount(string cell, string unit) =>
        cell.Length == 0 || (decimal.TryParse(cell, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) && value == 0) ? ""
        : char.IsAsciiDigit(cell[^1]) || "½¼¾⅛⅜⅝⅞".Contains(cell[^1], StringComparison.Ordinal) ? cell + unit
        : cell;

    private static string Money(string cell) =>
        decimal.TryParse(cell, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) ? decimal.Round(value, 2).ToString(CultureInfo.InvariantCulture) : cell;

    private static Table? Find(XLWorkbook book, SheetWord first, SheetWord other) =>
        book.Worksheets.Select(sheet => Table.In(sheet, first, other)).FirstOrDefault(table => table is not null);

    /// <summary>Rows under a row of headings.</summary>
    private sealed record Table(IXLWorksheet Sheet, int HeadingRow, IReadOnlyDictionary<string, int> Columns)
    {
        public static Table? In(IXLWorksheet sheet, SheetWord first, SheetWord other)
        {
            for (var row = 1; row <= HighestHeadingRow; row++)
            {
                var headings = sheet.Row(row).CellsUsed().Select(cell => (Text: Shown(cell), Column: cell.Address.ColumnNumber)).DistinctBy(cell => cell.Text).ToDictionary(cell => cell.Text, cell => cell.Column);
                if (headings.Keys.Any(first.Is) && headings.Keys.Any(other.Begins))
                {
                    return new(sheet, row, headings);
                }
            }

            return null;
        }

        public string Heading(SheetWord word) => Columns.Keys.FirstOrDefault(word.Is) ?? Columns.Keys.FirstOrDefault(word.Begins) ?? "";

        public IEnumerable<int> Rows() => Enumerable.Range(HeadingRow + 1, Math.Max(0, (Sheet.LastRowUsed()?.RowNumber() ?? 0) - HeadingRow));

        public string Text(int row, SheetWord word)
        {
            if (Heading(word) is not { Length: > 0 } heading)
            {
                return "";
            }

            return Shown(Sheet.Cell(row, Columns[heading]));
        }

        // What stands in the cell as the spreadsheet program left it: a formula is never reckoned here.
        private static string Shown(IXLCell cell) => (cell.HasFormula ? cell.CachedValue : cell.Value) switch
        {
            double number when Math.Abs(number) < 1e12 => Math.Round((decimal)number, 6).ToString("0.######", CultureInfo.InvariantCulture),
            var other => Convert.ToString(other, CultureInfo.InvariantCulture)?.Trim() ?? "",
        };
    }
}
