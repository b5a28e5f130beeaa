using KittingBee.Web.Finding;

namespace KittingBee.Web.Tests.Finding;

public sealed class FinderTests
{
    [Theory]
    [InlineData("Zoë Brandt", "zoe", true)]
    [InlineData("Zoe Brandt", "ZOË", true)]
    [InlineData("Zoë Brandt", "brandt zo", true)]
    [InlineData("Zoë Brandt", "brandt zob", false)]
    [InlineData("Dutchman’s puzzle", "dutchman's", true)]
    [InlineData("Ελένη Νικολάου", "ελενη", true)]
    [InlineData("Андрей Йовков", "андрей", true)]
    [InlineData("田中 花子", "花子", true)]
    [InlineData("ＡＢＣ cloth", "abc", true)]
    [InlineData("مريم", "مريم", true)]
    [InlineData("Indigo dots", "dots indigo", true)]
    [InlineData("Indigo dots", "50%_", false)]
    public void Name_IsFoundInAnyScriptHoweverItIsTyped(string name, string typed, bool found) =>
        Assert.Equal(found, Finder.Find(With(name), typed).People.Count == 1);

    [Fact]
    public void Words_AreNotFoundAcrossTwoTexts()
    {
        var all = new Findable([new FindableClass { Title = "Star", Place = "light hall" }], [], [], []);
        Assert.Empty(Finder.Find(all, "starlight").Classes);
        Assert.Single(Finder.Find(all, "light star").Classes);
    }

    [Fact]
    public void Order_StaysAsItCame()
    {
        var all = new Findable([], [new(3, "Star late", null), new(1, "Star early", null)], [], []);
        Assert.Equal([3L, 1L], Finder.Find(all, "star").Blocks.Select(block => block.Id));
    }

    private static Findable With(string person) => new([], [], [], [new FindablePerson { Name = person }]);
}
