namespace KittingBee.Planning.Cutting;

/// <summary>One sub-cut of a strip and how many of it stand side by side: indices of facings, from the foot up, in no order.</summary>
internal sealed record Stack(long Width, int Repeat, int[] Facings);

/// <summary>One way to sub-cut a strip, with what comes out of it.</summary>
internal sealed class Recipe
{
    public Recipe(long height, IReadOnlyList<Stack> stacks, int[] yield)
    {
        Height = height;
        Stacks = stacks;
        Yield = yield;
    }

    /// <summary>Ticks.</summary>
    public long Height { get; }

    public IReadOnlyList<Stack> Stacks { get; }

    /// <summary>Pieces by size.</summary>
    public int[] Yield { get; }
}
