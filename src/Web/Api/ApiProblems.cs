using KittingBee.Planning;
using Microsoft.AspNetCore.Http.HttpResults;

namespace KittingBee.Web.Api;

/// <summary>Problem details (RFC 9457) for calls that cannot be answered.</summary>
public static class ApiProblems
{
    private const string Advice = "Nothing was stored. Each entry of errors names a field of the request and what to do about it.";

    /// <summary>400 with each field named. The list must not be empty.</summary>
    public static ValidationProblem Invalid(IEnumerable<Problem> problems) => TypedResults.ValidationProblem(
        problems.GroupBy(problem => problem.Field).ToDictionary(field => field.Key, field => field.Select(problem => problem.Message).Distinct().ToArray()),
        detail: Advice,
        title: "The request has something wrong in it.");

    /// <summary>A body that is not looked into at all: too large, or not JSON by its own account.</summary>
    public static ProblemHttpResult Unreadable(int status, string detail) => TypedResults.Problem(detail, statusCode: status);
}
