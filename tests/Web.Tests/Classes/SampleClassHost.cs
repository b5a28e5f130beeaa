using KittingBee.Web.Classes;

namespace KittingBee.Web.Tests.Classes;

/// <summary>A guild with one class, shared by tests that only read it.</summary>
public sealed class SampleClassHost : IAsyncLifetime
{
    public GuildHost Guild { get; } = new();

    public long ClassId { get; private set; }

    public FormClient Client { get; private set; } = null!;

    public async Task<ClassPlan> Plan() => (await Guild.Get<ClassPlanning>().Plan(ClassId))!;

    public async ValueTask InitializeAsync()
    {
        Client = new FormClient(Guild.CreateClient());
        ClassId = await SampleGuild.Fill(Guild);
    }

    public async ValueTask DisposeAsync() => await Guild.DisposeAsync();
}
