namespace KittingBee.Web.Classes;

/// <summary>Registers what plans classes.</summary>
public static class ClassServices
{
    public static IServiceCollection AddClassPlanning(this IServiceCollection services) => services
        .AddSingleton<ClassList>()
        .AddSingleton<PlanBook>()
        .AddSingleton<FormatBook>()
        .AddSingleton<SeasonShopping>()
        .AddSingleton<RoomBook>()
        .AddSingleton<ClassPlanning>();
}
