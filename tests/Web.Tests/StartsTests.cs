namespace KittingBee.Web.Tests;

public sealed class StartsTests
{
    [Fact]
    public void Program_Assembly_IsTheWebProgram() => Assert.Equal("KittingBee.Web", typeof(Program).Assembly.GetName().Name);
}
