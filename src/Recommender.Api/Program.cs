using Microsoft.AspNetCore.Connections;
using Recommender.Api.Access;
using Recommender.Api.Athletes;
using Recommender.Api.CatalogueVersions;
using Recommender.Api.Commands;
using Recommender.Api.Decisions;
using Recommender.Api.Exercises;
using Recommender.Api.Hosting;
using Recommender.Api.Needs;
using Recommender.Api.Operations;
using Recommender.Api.Outcomes;
using Recommender.Api.Overload;
using Recommender.Api.Preferences;
using Recommender.Api.Problems;
using Recommender.Api.Recommendations;
using Recommender.Api.Sessions;
using Recommender.Api.Substitutions;
using Recommender.Api.Vocabulary;
using Recommender.Domain.Knowledge;
using Recommender.Pages.Hosting;
using Recommender.Storage.Decisions;

var builder = WebApplication.CreateSlimBuilder(new WebApplicationOptions { Args = args, ContentRootPath = AppContext.BaseDirectory });
if (args is [HealthProbe.Command, ..])
{
    return await HealthProbe.Run(builder.Configuration);
}

if (args is [DataCommands.Basis or DataCommands.Coverage or DataCommands.Check, ..])
{
    return DataCommands.Run(args, builder.Configuration, Console.Out, Console.Error);
}

if (args is [VerifyCommand.Name, ..])
{
    return await VerifyCommand.Run(builder.Configuration, Console.Out, Console.Error);
}

if (args is [BackupCommand.Name or RestoreCommand.Name, ..])
{
    return args[0] == BackupCommand.Name ? BackupCommand.Run(args, builder.Configuration, Console.Out, Console.Error) : await RestoreCommand.Run(args, builder.Configuration, Console.Out, Console.Error);
}

if (args is [EraseCommand.Name, ..])
{
    return await EraseCommand.Run(args, builder.Configuration, Console.Out, Console.Error);
}

if (args is [KeysCommand.Name, ..])
{
    return await KeysCommand.Run(args, builder.Configuration, Console.Out, Console.Error, TimeProvider.System);
}

try
{
    var access = AccessSettings.Of(builder.Configuration);
    builder.WebHost.ConfigureKestrel(RequestSizes.Limit);
    builder.Logging.AddChosenConsole(builder.Configuration);
    builder.Services.AddRecommender(Settings.Of(builder.Configuration));
    builder.Services.AddAccess(access);
    builder.Services.AddOverload(builder.Configuration);
    builder.Services.AddTelemetry(builder.Configuration);
    builder.Services.AddOpenApiDocument();
    builder.Services.AddPages();

    var app = builder.Build();

    // While the knowledge is read the calls are mapped: both are mostly compiling, and there is more than one core.
    var preparing = Task.Run(() => StartUp.Prepare(app.Services));
    app.UseForwarding(access);
    app.UseSecurityHeaders();
    app.UseProblems();
    app.UseHeadAndOptions();
    app.UseRouting();
    app.UseRouteValuesAsSent();
    app.UseAccess(access);
    app.UseAcceptable();
    app.UseOverload();
    app.UsePages();
    app.MapOpenApiDocument();
    app.MapHealth();
    app.MapMetrics();
    app.MapVocabulary();
    app.MapExercises();
    app.MapNeeds();
    app.MapRecommendations();
    app.MapSubstitutions();
    app.MapSessions();
    app.MapDecisions();
    app.MapReplay();
    app.MapVersions();
    app.MapDecisionAudit();
    app.MapOutcomes();
    app.MapPreferences();
    app.MapAthletes();
    app.MapKeys();
    app.MapPages();
    await preparing;
    await app.RunAsync();
    return 0;
}
catch (Exception e) when (e is InvalidKnowledgeException or InvalidSettingException or StoreUnavailableException || e.InnerException is AddressInUseException)
{
    await Console.Error.WriteLineAsync($"The service does not start. {e.Message}");
    return 1;
}
