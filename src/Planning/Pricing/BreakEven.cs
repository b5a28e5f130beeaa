namespace KittingBee.Planning.Pricing;

/// <summary>Where a class begins to pay for itself.</summary>
/// <param name="First">The fewest students without a loss, or null where none of the points is without one.</param>
/// <param name="Safe">The fewest students from which no greater number makes a loss either: fabric is bought in steps, so one more student can bring a loss back. Null as above.</param>
public sealed record BreakEven(int? First, int? Safe)
{
    /// <summary>Reads it off the points of a curve, each a real plan.</summary>
    public static BreakEven Of(IEnumerable<EnrolmentPoint> points)
    {
        int? first = null, safe = null;
        foreach (var point in points.OrderBy(point => point.Students))
        {
            if (point.Profit >= 0)
            {
                first ??= point.Students;
                safe ??= point.Students;
            }
            else
            {
                safe = null;
            }
        }

        return new(first, safe);
    }

    /// <summary>
    /// The fewest students whose fees cover the fixed costs where each student costs the same: fixed ÷ (fee − cost per student),
    /// rounded up. Null where no number does. Zero where there is nothing to cover.
    /// </summary>
    public static int? Students(decimal fixedCosts, decimal feePerStudent, decimal costPerStudent)
    {
        if (fixedCosts <= 0)
        {
            return feePerStudent >= costPerStudent ? 0 : null;
        }

        var left = feePerStudent - costPerStudent;
        if (left <= 0)
        {
            return null;
        }

        var students = decimal.Ceiling(fixedCosts / left);
        return students <= int.MaxValue ? (int)students : null;
    }

    /// <summary>The least fee, to the cent, that covers the fixed costs and each student's own at so many students (at least 1).</summary>
    public static decimal Fee(decimal fixedCosts, decimal costPerStudent, int students)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(students, 1);
        return Cents.UpTo((fixedCosts / students) + costPerStudent, 0.01m);
    }
}
