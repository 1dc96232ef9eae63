using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.DataProtection.KeyManagement;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;
using Microsoft.Extensions.DependencyInjection;
using Recommender.Answers;
using Recommender.Pages.Answers;
using Recommender.Pages.Ask;
using Recommender.Pages.Athletes;
using Recommender.Pages.Decisions;
using Recommender.Pages.Exercises;
using Recommender.Pages.Preferences;
using Recommender.Pages.Season;
using Recommender.Pages.Sessions;
using Recommender.Pages.SignIn;
using Recommender.Pages.Squad;
using Recommender.Pages.Versions;
using Recommender.Storage.Access;

namespace Recommender.Pages.Hosting;

/// <summary>The coach's pages: registered and mapped with one call each.</summary>
public static class PageServices
{
    /// <summary>Registers what pages need beside the answers.</summary>
    /// <param name="services">Services.</param>
    public static void AddPages(this IServiceCollection services)
    {
        services.AddRazorComponents();
        services.AddResponseCompression(o =>
        {
            // Pages and their files only: what programs call stays as it is. Form tokens are random in each page, so a page's length tells nothing of them.
            o.MimeTypes = ["text/html", "text/css", "text/javascript"];
            o.EnableForHttps = true;
        });
        services.AddAntiforgery(o =>
        {
            o.Cookie.Name = "form-token";
            o.FormFieldName = FormToken.Field;
            o.SuppressXFrameOptionsHeader = true;
        });
        services.AddDataProtection().SetApplicationName("track-accessory-recommender");
        services.AddOptions<KeyManagementOptions>().Configure<ProtectionKeyStore, TimeProvider>((o, store, clock) => o.XmlRepository = new StoredProtectionKeys(store, clock));
        services.AddScoped<PageHost>();
        services.AddSingleton<SavedAthletes>();
        services.AddSingleton<OpenDecision>();
        services.AddSingleton<RecentDecisions>();
        services.AddSingleton<FormToken>();
        services.AddSingleton<AskSource>();
        services.AddScoped<AnswerReader>();
        services.AddScoped<DecisionOnPage>();
        services.AddScoped<SheetReader>();
    }

    /// <summary>Puts what pages need before the endpoints.</summary>
    public static void UsePages(this IApplicationBuilder app) => app.UseResponseCompression();

    /// <summary>Maps every page.</summary>
    public static void MapPages(this IEndpointRouteBuilder routes)
    {
        var pages = routes.MapGroup("").ExcludeFromDescription().AddEndpointFilter(PageHeaders.Set);
        PageFiles.Map(pages, routes.ServiceProvider.GetRequiredService<KnowledgeAtStart>().Edition.Catalogue.Vocabulary.Regions.Select(r => r.Id));
        SignInEndpoints.Map(pages);
        pages = pages.MapGroup("").AddEndpointFilter(PageHost.Open);
        AskEndpoints.Map(pages);
        AnswerEndpoints.Map(pages);
        OutcomeEndpoint.Map(pages);
        PreferenceEndpoints.Map(pages);
        SessionEndpoints.Map(pages);
        SquadEndpoints.Map(pages);
        SheetEndpoints.Map(pages);
        ExerciseEndpoints.Map(pages);
        DecisionEndpoints.Map(pages);
        VersionEndpoints.Map(pages);
        SeasonEndpoints.Map(pages);
        AthleteEndpoints.Map(pages);
    }
}
