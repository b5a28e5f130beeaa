namespace KittingBee.Planning.Blocks;

/// <summary>The fabrics that a typed list names, by letter or by name, in the order of their letters.</summary>
internal sealed class TypedFabrics
{
    private readonly SortedDictionary<string, string> nameOfLetter = new(StringComparer.Ordinal);

    public IReadOnlyList<BlockFabric> All => [.. nameOfLetter.Select(fabric => new BlockFabric(fabric.Key, fabric.Value))];

    /// <summary>The fabric of the lines below a heading.</summary>
    public string? Current { get; set; }

    /// <summary>Gives the letter of "B", "white" or "B white"; null when all letters are taken.</summary>
    public string? LetterOf(string words)
    {
        var trimmed = words.Trim();
        if (trimmed.Length == 1 && char.IsAsciiLetter(trimmed[0]))
        {
            return Named(trimmed.ToUpperInvariant(), "");
        }

        // "a" opens many names ("a dark blue"), so only a capital counts as a letter before a name.
        if (trimmed.Length > 2 && trimmed[0] is >= 'A' and <= 'Z' && !char.IsLetter(trimmed[1]))
        {
            return Named(trimmed[..1], trimmed[2..].Trim(' ', '-', '–', '=', ',', '.', '(', ')'));
        }

        foreach (var (letter, name) in nameOfLetter)
        {
            if (string.Equals(name, trimmed, StringComparison.OrdinalIgnoreCase))
            {
                return letter;
            }
        }

        for (var letter = 'A'; letter <= 'Z'; letter++)
        {
            if (!nameOfLetter.ContainsKey(letter.ToString()))
            {
                return Named(letter.ToString(), trimmed);
            }
        }

        return null;
    }

    /// <summary>"B indigo", or "B" alone.</summary>
    public string InWords(string letter) => nameOfLetter[letter].Length == 0 ? letter : $"{letter} {nameOfLetter[letter]}";

    private string Named(string letter, string name)
    {
        if (name.Length > 0 || !nameOfLetter.ContainsKey(letter))
        {
            nameOfLetter[letter] = name;
        }

        return letter;
    }
}
