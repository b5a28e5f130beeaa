using System.Data;
using System.Globalization;
using Dapper;
using KittingBee.Planning.Measures;

namespace KittingBee.Web.Storage;

/// <summary>
/// How values are stored: a length as ticks, a decimal (money or a percentage, both exact to the hundredth) as hundredths,
/// a date as ISO text. Columns are named for it: <c>_ticks</c>, <c>_cents</c>, <c>_hundredths</c>.
/// </summary>
public static class TypeHandlers
{
    private static readonly Lock Once = new();
    private static bool registered;

    public static void Register()
    {
        lock (Once)
        {
            if (registered)
            {
                return;
            }

            SqlMapper.RemoveTypeMap(typeof(decimal));
            SqlMapper.RemoveTypeMap(typeof(decimal?));
            SqlMapper.RemoveTypeMap(typeof(DateOnly));
            SqlMapper.RemoveTypeMap(typeof(DateOnly?));
            SqlMapper.RemoveTypeMap(typeof(Guid));
            SqlMapper.RemoveTypeMap(typeof(Guid?));
            SqlMapper.AddTypeHandler(new LengthHandler());
            SqlMapper.AddTypeHandler(new GuidHandler());
            SqlMapper.AddTypeHandler(new HundredthsHandler());
            SqlMapper.AddTypeHandler(new DateHandler());
            registered = true;
        }
    }

    private sealed class LengthHandler : SqlMapper.TypeHandler<Length>
    {
        public override Length Parse(object value) => Length.FromTicks((long)value);

        public override void SetValue(IDbDataParameter parameter, Length value) => parameter.Value = value.Ticks;
    }

    private sealed class HundredthsHandler : SqlMapper.TypeHandler<decimal>
    {
        public override decimal Parse(object value) => (long)value / 100m;

        public override void SetValue(IDbDataParameter parameter, decimal value)
        {
            var hundredths = value * 100m;
            parameter.Value = decimal.IsInteger(hundredths)
                ? decimal.ToInt64(hundredths)
                : throw new ArgumentException($"{value} is finer than the hundredth that is stored.", nameof(value));
        }
    }

    private sealed class DateHandler : SqlMapper.TypeHandler<DateOnly>
    {
        public override DateOnly Parse(object value) => DateOnly.ParseExact((string)value, "yyyy-MM-dd", CultureInfo.InvariantCulture);

        public override void SetValue(IDbDataParameter parameter, DateOnly value) => parameter.Value = value.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
    }

    private sealed class GuidHandler : SqlMapper.TypeHandler<Guid>
    {
        public override Guid Parse(object value) => Guid.ParseExact((string)value, "D");

        public override void SetValue(IDbDataParameter parameter, Guid value) => parameter.Value = value.ToString("D");
    }
}
