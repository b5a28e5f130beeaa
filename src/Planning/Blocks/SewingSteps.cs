using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Blocks;

/// <summary>Writes the sewing steps: the units first, then each join with the size that the piece must measure after it.</summary>
internal sealed class SewingSteps
{
    private const int MostPartsNamed = 6;

    private readonly CuttingRules rules;
    private readonly List<SewingStep> steps = [];

    private SewingSteps(CuttingRules rules) => this.rules = rules;

    public static IReadOnlyList<SewingStep> For(PlacedBlock block, IReadOnlyList<UnitGroup> groups, CuttingRules rules)
    {
        var writer = new SewingSteps(rules);
        foreach (var group in groups.Where(group => group.Making.Text is not null))
        {
            var place = group.First;
            writer.Add(group.Making.Text!, group.Form.Width, group.Form.Height, group.Count, place.Column, place.Row, place.ColumnSpan, place.RowSpan);
        }

        writer.Join(block, 1, null);
        return writer.steps;
    }

    /// <summary>Joins alike pieces in one step, as they are chain-pieced.</summary>
    private void Join(PlacedBlock block, int copies, PlacedUnit? within)
    {
        foreach (var nested in block.Units.Where(unit => unit.Form.Inner is not null).GroupBy(unit => unit.Form.Inner!.KeyOfAllTurns()))
        {
            Join(nested.First().Form.Inner!, copies * nested.Count(), within ?? nested.First());
        }

        // Pieces of one size may come from different steps, so a piece is named by the step that made it.
        var madeIn = new Dictionary<(int Column, int Row, int ColumnSpan, int RowSpan), int>();
        var joins = Assembly.For(block).PartsFirst()
            .Where(piece => piece.Join != JoinKind.Unit)
            .GroupBy(piece => block.Part(piece.Column, piece.Row, piece.ColumnSpan, piece.RowSpan).KeyOfAllTurns());
        foreach (var alike in joins)
        {
            var piece = alike.First();
            var times = alike.Count() * copies * rules.BlocksPerKit;
            var width = block.ColumnEdges[piece.Column + piece.ColumnSpan] - block.ColumnEdges[piece.Column];
            var height = block.RowEdges[piece.Row + piece.RowSpan] - block.RowEdges[piece.Row];
            Add(
                Text(block, piece, times, madeIn),
                width,
                height,
                times,
                within?.Column ?? piece.Column,
                within?.Row ?? piece.Row,
                within?.ColumnSpan ?? piece.ColumnSpan,
                within?.RowSpan ?? piece.RowSpan);
            foreach (var one in alike)
            {
                madeIn[(one.Column, one.Row, one.ColumnSpan, one.RowSpan)] = steps.Count;
            }
        }
    }

    private void Add(Sentence text, Length width, Length height, int times, int column, int row, int columnSpan, int rowSpan)
    {
        var both = rules.SeamAllowance * 2;
        steps.Add(new(steps.Count + 1, text, width + both, height + both, times, column, row, columnSpan, rowSpan));
    }

    private Sentence Text(PlacedBlock block, AssemblyPiece piece, int times, Dictionary<(int Column, int Row, int ColumnSpan, int RowSpan), int> madeIn)
    {
        var parts = piece.Parts.Select(part => NameOf(block, part, madeIn)).ToList();
        if (parts.Count == 2 && piece.Join is (JoinKind.SideBySide or JoinKind.Stacked))
        {
            return piece.Join == JoinKind.SideBySide
                ? (Sentence)$"Sew {Pairs(times)} side by side, left to right: {Listed(parts)}."
                : $"Sew {Pairs(times)} one above the other, top to bottom: {Listed(parts)}.";
        }

        var text = piece.Join switch
        {
            JoinKind.SideBySide => (Sentence)$"Sew {parts.Count} pieces side by side, left to right: {Listed(parts)}.",
            JoinKind.Stacked => $"Sew {parts.Count} pieces one above the other, top to bottom: {Listed(parts)}.",
            _ => PartialText(piece, parts),
        };
        return times == 1 ? text : $"{text} Make {times} alike, chain-pieced.";
    }

    private static Sentence Pairs(int times) => times == 1 ? (Sentence)"a pair" : $"{times} pairs";

    private static Sentence PartialText(AssemblyPiece piece, List<Sentence> parts)
    {
        Sentence place = $"Partial seam at row {piece.Parts[0].Row + 1}, column {piece.Parts[0].Column + 1}";
        return parts.Count == 5
            ? (Sentence)($"{place}: lay the middle, {parts[0]}, under {parts[1]} and sew from the end where their edges meet to the middle of the seam only. "
                + $"Then sew on, going round, {parts[2]}, {parts[3]} and {parts[4]}, and finish the first seam last.")
            : $"{place}: no seam runs edge to edge here. Start with {parts[0]} and sew on its neighbours one by one: {Listed(parts.Skip(1).ToList())}; "
                + $"sew a seam only as far as the next piece allows, and finish it when that piece is on.";
    }

    private Sentence NameOf(PlacedBlock block, AssemblyPiece part, Dictionary<(int Column, int Row, int ColumnSpan, int RowSpan), int> madeIn)
    {
        if (part.Join != JoinKind.Unit)
        {
            var both = rules.SeamAllowance * 2;
            var width = block.ColumnEdges[part.Column + part.ColumnSpan] - block.ColumnEdges[part.Column];
            var height = block.RowEdges[part.Row + part.RowSpan] - block.RowEdges[part.Row];
            return $"the {Sizes.Text(width + both, height + both, rules)} piece of step {madeIn[(part.Column, part.Row, part.ColumnSpan, part.RowSpan)]}";
        }

        var form = block.Units[part.Unit - 1].Form;
        return form.Kind switch
        {
            UnitKind.Plain => (Sentence)$"{form.Letters[0]} patch",
            UnitKind.Block => "nested block",
            _ => $"{string.Join('/', form.Letters.OfType<string>().Distinct())} {UnitKinds.InWords(form.Kind)}",
        };
    }

    /// <summary>Names a few parts one by one, and equal neighbours by number.</summary>
    private static Sentence Listed(List<Sentence> parts)
    {
        var runs = new List<(Sentence Name, int Count)>();
        foreach (var part in parts)
        {
            if (runs.Count > 0 && runs[^1].Name.Equals(part))
            {
                runs[^1] = (part, runs[^1].Count + 1);
            }
            else
            {
                runs.Add((part, 1));
            }
        }

        return runs.Count > MostPartsNamed
            ? "in the order of the drawing"
            : Sentence.Join(", ", runs.Select(run => run.Count == 1 ? run.Name : $"{run.Count} × {run.Name}"));
    }
}
