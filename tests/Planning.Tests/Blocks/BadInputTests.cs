using System.Text.Json.Nodes;
using KittingBee.Planning.Blocks;
using KittingBee.Planning.Measures;

namespace KittingBee.Planning.Tests.Blocks;

/// <summary>Whatever a text holds, reading, checking, cutting and drawing answer with problems and never throw.</summary>
public sealed class BadInputTests
{
    private static readonly Func<JsonNode?>[] Values =
    [
        () => null, () => 0, () => -1, () => 1, () => 2, () => 3, () => 90, () => 45, () => 1e9, () => 0.001, () => 1e-9, () => 199.99, () => int.MaxValue, () => 1e300,
        () => "A", () => "Z", () => "", () => "4 1/2", () => "1/0", () => "plain", () => "block", () => "template", () => "rails", () => "checkerboard", () => "flying-geese",
        () => true, () => new JsonArray(), () => new JsonObject(), () => new JsonArray("A", null, "B"), () => new JsonArray(1, 2, 3), () => new JsonArray(new JsonArray("A")),
    ];

    [Fact]
    public void Block_ChangedAtRandom_GivesACutListOrProblems()
    {
        var random = new Random(41);
        var blocks = new RandomBlocks(42);
        var (good, bad) = (0, 0);
        for (var round = 0; round < 6_000; round++)
        {
            var start = round % 3 == 0 ? BlockJsonTests.EveryKind() : blocks.Next();
            var text = JsonNode.Parse(BlockJson.Write(start))!;
            for (var changes = random.Next(1, 4); changes > 0; changes--)
            {
                Change(text, random);
            }

            var reading = BlockJson.Read(text.ToJsonString());
            Assert.Equal(reading.Block is null, reading.Problems.Count > 0);
            if (reading.Block is not { } block)
            {
                bad++;
                continue;
            }

            var result = CutLists.For(block, new());
            Assert.Equal(result.CutList is null, result.Problems.Count > 0);
            Assert.All(result.Problems, problem => Assert.True(problem.Message.Length is > 10 and < 600, problem.Message));
            _ = BlockPatches.Of(block);
            good += result.CutList is null ? 0 : 1;
            bad += result.CutList is null ? 1 : 0;
        }

        Assert.True(good > 100 && bad > 2_000, $"{good} good, {bad} bad");
    }

    // Half of a surrogate pair is JSON by its grammar (RFC 8259, section 8.2) and no text by Unicode.
    [Theory]
    [InlineData("""{ "name": "\ud800", "columns": [4], "rows": [4], "fabrics": [], "units": [] }""")]
    [InlineData("""{ "\ud800": 1 }""")]
    [InlineData("""{ "name": "a", "columns": ["\ud800"], "rows": [4], "fabrics": [], "units": [] }""")]
    public void Text_WithHalfACharacter_IsAProblem(string text)
    {
        Assert.Contains("half a character", Assert.Single(BlockJson.Read(text).Problems).Message, StringComparison.Ordinal);
        Assert.NotEmpty(ProjectJson.Read(text).Problems);
    }

    /// <summary>Replaces, removes or doubles one value somewhere in the text.</summary>
    private static void Change(JsonNode root, Random random)
    {
        var node = root;
        while (true)
        {
            var children = node switch
            {
                JsonObject fields => fields.Select(field => field.Value).ToList(),
                JsonArray items => [.. items],
                _ => [],
            };
            var deeper = children.OfType<JsonNode>().Where(child => child is JsonObject or JsonArray).ToList();
            if (deeper.Count > 0 && random.Next(4) > 0)
            {
                node = deeper[random.Next(deeper.Count)];
                continue;
            }

            if (node is JsonObject target && target.Count > 0)
            {
                var name = target.ElementAt(random.Next(target.Count)).Key;
                if (random.Next(5) == 0)
                {
                    target.Remove(name);
                }
                else
                {
                    target[name] = Values[random.Next(Values.Length)]();
                }
            }
            else if (node is JsonArray list && list.Count > 0)
            {
                var index = random.Next(list.Count);
                if (random.Next(3) == 0)
                {
                    list.Add(list[index]?.DeepClone());
                }
                else if (random.Next(3) == 0)
                {
                    list.RemoveAt(index);
                }
                else
                {
                    list[index] = Values[random.Next(Values.Length)]();
                }
            }

            return;
        }
    }

    /// <summary>Sides of a tick and of the largest block at once: no overflow, no endless loop.</summary>
    [Fact]
    public void Block_OfExtremeSides_IsCut()
    {
        var tick = Length.FromTicks(1);
        var block = new Block(
            "Extremes",
            [tick, BlockLimits.Side - tick],
            [BlockLimits.Side],
            [new("A", "")],
            [Sketch.Plain(0, 0, "A"), new Unit { Row = 0, Column = 1, Kind = UnitKind.Checkerboard, Patches = [.. Enumerable.Repeat(Enumerable.Repeat("A", 24).ToArray(), 24)] }]);
        Assert.NotNull(CutLists.For(block, new() { BlocksPerKit = 1000, Methods = new() { Checkerboard = PatchMethod.StripPieced } }).CutList);
        Assert.Equal(577, BlockPatches.Of(block).Patches.Count);
    }
}
