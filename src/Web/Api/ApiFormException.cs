using System.Text.Json;

namespace KittingBee.Web.Api;

/// <summary>What a converter throws to refuse a value: its message is meant for the caller as it stands. The serializer adds the path.</summary>
public sealed class ApiFormException : JsonException
{
    private const int Longest = 60;

    /// <summary>Refuses without a reason; converters give one.</summary>
    public ApiFormException()
    {
    }

    /// <summary>Refuses with a full sentence for a person.</summary>
    public ApiFormException(string message)
        : base(message)
    {
    }

    /// <summary>Refuses with a full sentence for a person and the cause.</summary>
    public ApiFormException(string message, Exception inner)
        : base(message, inner)
    {
    }

    /// <summary>A text from outside, cut so that a message stays readable.</summary>
    public static string Shorten(string text) => text.Length <= Longest ? text : string.Concat(text.AsSpan(0, Longest), "…");
}
