namespace KittingBee.Planning.Pricing;

/// <summary>The money of a whole class, but for its fabric.</summary>
/// <param name="Lines">All costs except fabric: for the class (room, teacher), for each kit, for each student.</param>
/// <param name="FeePerStudent">Class fee before tax.</param>
/// <param name="KitPricePerStudent">Price of the kit before tax; 0 where it is in the fee.</param>
/// <param name="ExtraKits">Kits made beyond the students': spares and samples.</param>
public sealed record ClassMoney(IReadOnlyList<CostLine> Lines, decimal FeePerStudent, decimal KitPricePerStudent = 0m, int ExtraKits = 0)
{
    /// <summary>What each student brings in.</summary>
    public decimal IncomePerStudent => FeePerStudent + KitPricePerStudent;

    /// <summary>All costs but fabric for so many students.</summary>
    public decimal CostWithoutFabric(int students) => Lines.Sum(line => line.For(students + ExtraKits, students));

    /// <summary>What is wrong with the figures; empty when nothing is.</summary>
    public IReadOnlyList<Problem> Problems()
    {
        var problems = new List<Problem>();
        if (FeePerStudent is < 0 or > MoneyLimits.Most)
        {
            problems.Add(new("feePerStudent", $"A fee of {FeePerStudent} cannot be asked. Give 0 to {MoneyLimits.Most:N0}."));
        }

        if (KitPricePerStudent is < 0 or > MoneyLimits.Most)
        {
            problems.Add(new("kitPricePerStudent", $"A price of {KitPricePerStudent} cannot be asked. Give 0 to {MoneyLimits.Most:N0}."));
        }

        if (ExtraKits is < 0 or > MoneyLimits.MostKits)
        {
            problems.Add(new("extraKits", $"{ExtraKits} extra kits cannot be made. Give 0 to {MoneyLimits.MostKits:N0}."));
        }

        problems.AddRange(Lines.SelectMany((line, index) => line.Problems($"lines[{index}].amount")));
        return problems;
    }
}

/// <summary>The class at one enrolment.</summary>
/// <param name="Students">Students enrolled.</param>
/// <param name="Fabric">Fabric to buy for them.</param>
/// <param name="Cost">All costs.</param>
/// <param name="CostPerStudent">Cost ÷ students, rounded up to the cent.</param>
/// <param name="Income">Fees and kits.</param>
/// <param name="Profit">Income − cost; below zero for a loss.</param>
public sealed record EnrolmentPoint(int Students, decimal Fabric, decimal Cost, decimal CostPerStudent, decimal Income, decimal Profit);

/// <summary>Cost and profit against enrolment.</summary>
public static class EnrolmentCurve
{
    /// <summary>
    /// The points from one enrolment to another, worked out one at a time as they are asked for, because each needs real plans.
    /// </summary>
    /// <param name="money">The class; see <see cref="ClassMoney.Problems"/>.</param>
    /// <param name="from">Fewest students; at least 1.</param>
    /// <param name="to">Most students; not less than <paramref name="from"/>.</param>
    /// <param name="fabricCost">Money for the fabric of so many students, spares and samples included, as the shop sells it.</param>
    public static IEnumerable<EnrolmentPoint> Points(ClassMoney money, int from, int to, Func<int, decimal> fabricCost)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(from, 1);
        ArgumentOutOfRangeException.ThrowIfLessThan(to, from);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(to, MoneyLimits.MostKits);
        return Enumerable.Range(from, to - from + 1).Select(students => At(money, students, fabricCost(students)));
    }

    /// <summary>One point.</summary>
    public static EnrolmentPoint At(ClassMoney money, int students, decimal fabric)
    {
        var cost = fabric + money.CostWithoutFabric(students);
        var income = students * money.IncomePerStudent;
        return new(students, fabric, cost, Cents.UpTo(cost / students, 0.01m), income, income - cost);
    }

    /// <summary>What one more student changes: further fabric, all further cost, and the profit that remains of the income.</summary>
    /// <param name="money">The class.</param>
    /// <param name="students">Students so far; at least 1.</param>
    /// <param name="fabricCost">Money for the fabric of so many students.</param>
    public static (decimal Fabric, decimal Cost, decimal Profit) NextStudent(ClassMoney money, int students, Func<int, decimal> fabricCost)
    {
        var (now, then) = (At(money, students, fabricCost(students)), At(money, students + 1, fabricCost(students + 1)));
        return (then.Fabric - now.Fabric, then.Cost - now.Cost, then.Profit - now.Profit);
    }
}
