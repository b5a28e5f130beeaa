using Dapper;
using Microsoft.Data.Sqlite;

namespace KittingBee.Web.Storage;

/// <summary>One transaction's door to the database; alive only inside <see cref="Database.Read{T}"/> or <see cref="Database.Write{T}"/>.</summary>
public sealed class Session(SqliteConnection connection, SqliteTransaction transaction, string now)
{
    /// <summary>The moment of this transaction, as it is stored.</summary>
    public string Now => now;

    public IReadOnlyList<T> List<T>(string sql, object? values = null) => connection.Query<T>(sql, values, transaction).AsList();

    public T? One<T>(string sql, object? values = null) => connection.QuerySingleOrDefault<T>(sql, values, transaction);

    public T Get<T>(string sql, object? values = null) => connection.QuerySingle<T>(sql, values, transaction);

    /// <summary>Runs a statement and gives the number of rows that it changed.</summary>
    public int Run(string sql, object? values = null) => connection.Execute(sql, values, transaction);
}
