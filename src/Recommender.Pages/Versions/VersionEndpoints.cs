using System.Globalization;
using System.Runtime.CompilerServices;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Http.HttpResults;
using Microsoft.AspNetCore.Routing;
using Recommender.Answers;
using Recommender.Domain.Knowledge;
using Recommender.Pages.Hosting;
using Recommender.Storage.Versioning;

namespace Recommender.Pages.Versions;

/// <summary>/versions: what is in force, what differs, what a draft would change, put it in force or take it away.</summary>
internal static class VersionEndpoints
{
    private const string Unknown = "There is no version under this address.";
    private const int LargestForm = 16 * 1024;
    private const int UsualLast = 200;
    private const int MostLast = 100_000;

    /// <summary>Maps the pages.</summary>
    public static void Map(IEndpointRouteBuilder routes)
    {
        routes.MapGet("/versions", List).WithMetadata(new WayBack());
        UploadEndpoints.Map(routes);
        routes.MapGet("/versions/{kind}", (string kind, string? from, string? to) => VersionWords.KindOf(kind) is null || string.IsNullOrEmpty(from) || string.IsNullOrEmpty(to) ? PageResults.NotFound(Unknown)
            : new SeeOther($"/versions/{kind}/{Uri.EscapeDataString(from)}/changes/{Uri.EscapeDataString(to)}"));
        routes.MapGet("/versions/{kind}/{version}", Show).WithMetadata(new WayBack());
        routes.MapGet("/versions/{kind}/{version}/changes/{other}", Changes);
        routes.MapGet("/versions/{kind}/{version}/impact", Impact);
        routes.MapGet("/versions/{kind}/{version}/publish", AskToPublish).WithMetadata(new WayBack());
        routes.MapPost("/versions/{kind}/{version}/publish", Publish).WithMetadata(new WayBack());
        routes.MapGet("/versions/{kind}/{version}/discard", AskToDiscard);
        routes.MapPost("/versions/{kind}/{version}/discard", Discard);
    }

    private static async Task<IResult> List(HttpContext context, string? done, KnowledgeVersions versions, PageHost host)
    {
        // Words of its own choice alone: an address must not put a sentence on the page.
        var notice = done switch
        {
            "published" => "It is in force. Every later answer is made on it; those on record stay as they were.",
            "discarded" => "The draft is gone.",
            _ => host.Unread is { } unread ? VersionWords.Unread(unread) + " Open one of those below and put it in force." : null,
        };
        IReadOnlyList<ShownVersions> kinds = [await KindOf(KnowledgeKind.Catalogue), await KindOf(KnowledgeKind.Rules)];
        return PageResults.Page<VersionListPage>(StatusCodes.Status200OK, (nameof(VersionListPage.Kinds), kinds), (nameof(VersionListPage.Notice), notice));

        async Task<ShownVersions> KindOf(KnowledgeKind kind) => new(kind, await versions.InForce(host.Organisation, kind), await versions.List(host.Organisation, kind));
    }

    private static async Task<IResult> Show(HttpContext context, string kind, string version, KnowledgeVersions versions, PageHost host, FormToken token) =>
        await Read(kind, version, null, [], versions, host, token.For(context)) is { } shown ? PageResults.Page<VersionPage>(StatusCodes.Status200OK, (nameof(VersionPage.Shown), shown)) : PageResults.NotFound(Unknown);

    private static async Task<IResult> Changes(string kind, string version, string other, KnowledgeVersions versions, PageHost host) =>
        VersionWords.KindOf(kind) is { } known && await versions.Between(host.Organisation, known, version, other) is { } changes
            ? PageResults.Page<ChangesPage>(StatusCodes.Status200OK, (nameof(ChangesPage.Kind), known), (nameof(ChangesPage.From), await versions.Named(host.Organisation, known, version)), (nameof(ChangesPage.To), await versions.Named(host.Organisation, known, other)),
                (nameof(ChangesPage.Changes), changes), (nameof(ChangesPage.Edition), host.Edition))
            : PageResults.NotFound(Unknown);

    /// <summary>Answers the last decisions again on what is in force and on this version, and says what differs while it goes on. Nothing goes on record, so looking is enough.</summary>
    private static async Task<IResult> Impact(HttpContext context, string kind, string version, KnowledgeVersions versions, VersionImpact impact, WalkRecord record, SavedAthletes athletes, PageHost host)
    {
        if (VersionWords.KindOf(kind) is not { } known || await versions.With(host.Organisation, known, version) is not { } draft)
        {
            return PageResults.NotFound(Unknown);
        }

        var last = int.TryParse(context.Request.Query["last"].FirstOrDefault(), NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? Math.Clamp(number, 1, MostLast) : UsualLast;
        var now = host.Edition;
        var most = (int)Math.Min(last, (await record.End(host.Organisation)).Records);
        var names = (await athletes.All(host.Organisation)).ToDictionary(a => a.Ref, a => a.Name, StringComparer.Ordinal);
        var address = $"/versions/{kind}/{Uri.EscapeDataString(version)}";
        return new StreamedPage<ImpactPage>(Stretches, (nameof(ImpactPage.Kind), known), (nameof(ImpactPage.Version), await versions.Named(host.Organisation, known, version)), (nameof(ImpactPage.Last), last), (nameof(ImpactPage.Address), address));

        async IAsyncEnumerable<Piece> Stretches([EnumeratorCancellation] CancellationToken cancelled)
        {
            var sum = ImpactSum.Nothing;
            await foreach (var stretch in impact.Of(host.Organisation, now, draft, last, cancelled))
            {
                var before = sum;
                sum = sum.With(stretch);
                yield return Piece.Of<ImpactStretchView>((nameof(ImpactStretchView.Stretch), stretch), (nameof(ImpactStretchView.Sum), sum), (nameof(ImpactStretchView.Last), most), (nameof(ImpactStretchView.Shown), before.Changed),
                    (nameof(ImpactStretchView.Names), names), (nameof(ImpactStretchView.Edition), draft));
            }

            yield return Piece.Of<ImpactEnd>((nameof(ImpactEnd.Sum), sum), (nameof(ImpactEnd.Address), address));
        }
    }

    private static async Task<IResult> AskToPublish(HttpContext context, string kind, string version, KnowledgeVersions versions, PageHost host, FormToken token) =>
        await Read(kind, version, null, [], versions, host, token.For(context)) is { } shown ? PublishPageOf(StatusCodes.Status200OK, shown) : PageResults.NotFound(Unknown);

    private static async Task<IResult> Publish(HttpContext context, string kind, string version, KnowledgeVersions versions, PageHost host, FormToken token)
    {
        if (await Read(kind, version, null, [], versions, host, token.For(context)) is not { } shown)
        {
            return PageResults.NotFound(Unknown);
        }

        var form = await PostedForm.Read(context, LargestForm);
        if (form is null || !await token.Fits(context))
        {
            return PublishPageOf(StatusCodes.Status400BadRequest, shown with { Notice = FormToken.Expired });
        }

        // What was confirmed is what stood on the page: another pair in force by now changes other things.
        if (form["inForce"].FirstOrDefault() != shown.InForce)
        {
            return PublishPageOf(StatusCodes.Status409Conflict, shown with { Notice = "Meanwhile another version was put in force. What would change now stands below; confirm it again." });
        }

        var (done, faults) = await versions.Publish(host.Organisation, shown.Kind, shown.Version.Version);
        return done ? new SeeOther("/versions?done=published")
            : faults.Count == 0 ? PageResults.NotFound(Unknown)
            : PublishPageOf(StatusCodes.Status422UnprocessableEntity, shown with { Notice = "It cannot be put in force: it does not fit what is in force of the other kind. What is in force stays.", Faults = faults });
    }

    private static async Task<IResult> AskToDiscard(HttpContext context, string kind, string version, KnowledgeVersions versions, PageHost host, FormToken token) =>
        await Read(kind, version, null, [], versions, host, token.For(context)) is { } shown ? DiscardPageOf(StatusCodes.Status200OK, shown) : PageResults.NotFound(Unknown);

    private static async Task<IResult> Discard(HttpContext context, string kind, string version, KnowledgeVersions versions, PageHost host, FormToken token)
    {
        if (await Read(kind, version, null, [], versions, host, token.For(context)) is not { } shown)
        {
            return PageResults.NotFound(Unknown);
        }

        if (await PostedForm.Read(context, LargestForm) is null || !await token.Fits(context))
        {
            return DiscardPageOf(StatusCodes.Status400BadRequest, shown with { Notice = FormToken.Expired });
        }

        return await versions.Discard(host.Organisation, shown.Kind, shown.Version.Version) ? new SeeOther("/versions?done=discarded")
            : DiscardPageOf(StatusCodes.Status409Conflict, shown with { Notice = "It is or was in force, or came with the data folder; decisions may refer to it, so it stays." });
    }

    private static async Task<ShownVersion?> Read(string kind, string version, string? notice, IReadOnlyList<KnowledgeFault> faults, KnowledgeVersions versions, PageHost host, string token)
    {
        if (VersionWords.KindOf(kind) is not { } known)
        {
            return null;
        }

        var named = await versions.Named(host.Organisation, known, version);
        var inForce = await versions.InForce(host.Organisation, known);
        if ((await versions.List(host.Organisation, known)).FirstOrDefault(v => v.Version == named) is not { } kept)
        {
            return null;
        }

        var changes = await Differences(versions, host, known, inForce, named);
        return changes is null && host.Unread is null ? null
            : new ShownVersion(known, kept, inForce, changes, host.Edition, notice, faults, token, host.Unread is null ? null : VersionWords.Unread(host.Unread));
    }

    /// <summary>What differs; null where one of the two is lost or damaged.</summary>
    private static async Task<IReadOnlyList<KnowledgeChange>?> Differences(KnowledgeVersions versions, PageHost host, KnowledgeKind kind, string inForce, string named)
    {
        try
        {
            return await versions.Between(host.Organisation, kind, inForce, named);
        }
        catch (InvalidDataException) when (host.Unread is not null)
        {
            return null;
        }
    }

    private static RazorComponentResult<PublishPage> PublishPageOf(int status, ShownVersion shown) => PageResults.Page<PublishPage>(status, (nameof(PublishPage.Shown), shown));

    private static RazorComponentResult<DiscardPage> DiscardPageOf(int status, ShownVersion shown) => PageResults.Page<DiscardPage>(status, (nameof(DiscardPage.Shown), shown));
}
