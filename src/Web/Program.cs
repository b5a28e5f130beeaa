using KittingBee.Web.Api;

var builder = WebApplication.CreateBuilder(args);
builder.Services.AddPlanningApi();
var app = builder.Build();
app.MapPlanningApi();
app.Run();

public partial class Program;
