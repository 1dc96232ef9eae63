using Microsoft.AspNetCore.Connections;
using Recommender.Api.Athletes;
using Recommender.Api.CatalogueVersions;
using Recommender.Api.Commands;
using Recommender.Api.Decisions;
using Recommender.Api.Exercises;
using Recommender.Api.Hosting;
using Recommender.Api.Needs;
using Recommender.Api.Outcomes;
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

try
{
    builder.WebHost.ConfigureKestrel(kestrel => kestrel.AddServerHeader = false);
    builder.Services.AddRecommender(Settings.Of(builder.Configuration));
    builder.Services.AddOpenApiDocument();
    builder.Services.AddPages(keyFolder: Path.Combine(Settings.Of(builder.Configuration).StorageFolder, "form-keys"));

    var app = builder.Build();
    await StartUp.Prepare(app.Services);
    app.UseProblems();
    app.UsePages();
    app.MapOpenApiDocument();
    app.MapHealth();
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
    app.MapPages();
    await app.RunAsync();
    return 0;
}
catch (Exception e) when (e is InvalidKnowledgeException or InvalidSettingException or StoreUnavailableException || e.InnerException is AddressInUseException)
{
    await Console.Error.WriteLineAsync($"The service does not start. {e.Message}");
    return 1;
}
