using Recommender.Answers.Wire;
using Recommender.Domain.Knowledge;
using Recommender.Domain.Requests;
using Recommender.Storage.Decisions;
using Recommender.Storage.KnowledgeFiles;
using Recommender.Storage.Versioning;

namespace Recommender.Answers;

/// <summary>Drafts of catalogue and rules: make one, compare two, put one in force, take one away.</summary>
/// <param name="versions">Keeps versions.</param>
/// <param name="editions">Gives texts.</param>
/// <param name="inForce">The edition in force.</param>
/// <param name="start">Gives the schemas.</param>
/// <param name="clock">Gives the time.</param>
public sealed class KnowledgeVersions(VersionStore versions, Editions editions, EditionInForce inForce, KnowledgeAtStart start, TimeProvider clock) : IDisposable
{
    /// <summary>The word for the version in force.</summary>
    public const string Current = "current";

    /// <summary>Most faults of a draft that are told.</summary>
    public const int MostFaults = 2000;

    private readonly SemaphoreSlim publishing = new(1, 1);

    /// <summary>The version in force of a kind, also when this program cannot read it.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<string> InForce(string organisation, KnowledgeKind kind) => Half(await versions.InForce(organisation).ConfigureAwait(false), kind);

    /// <summary>A version as it was named: the word current stands for the one in force.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<string> Named(string organisation, KnowledgeKind kind, string version) => version == Current ? await InForce(organisation, kind).ConfigureAwait(false) : version;

    /// <summary>Versions that an organisation can see, newest first.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public Task<IReadOnlyList<KeptVersion>> List(string organisation, KnowledgeKind kind) => versions.List(organisation, kind);

    /// <summary>The text of a version, or of the one in force; null when there is none.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<KnowledgeText?> Text(string organisation, KnowledgeKind kind, string version) =>
        await versions.Read(organisation, kind, await Named(organisation, kind, version).ConfigureAwait(false)).ConfigureAwait(false);

    /// <summary>Makes a draft of a catalogue, checks it with the rules in force, and keeps it unless it is a dry run.</summary>
    /// <exception cref="StoreUnavailableException">It could not be kept.</exception>
    public async Task<DraftOutcome> Draft(string organisation, CatalogueDraft draft)
    {
        var read = await With(organisation, KnowledgeKind.Catalogue, await Named(organisation, KnowledgeKind.Catalogue, draft.BasedOn ?? Current).ConfigureAwait(false)).ConfigureAwait(false);
        return await Draft(organisation, KnowledgeKind.Catalogue, draft.BasedOn, draft.DryRun == true, CatalogueEdit.Of(draft.Upsert ?? [], draft.Remove ?? [], read?.Catalogue)).ConfigureAwait(false);
    }

    /// <summary>Makes a draft of rules, checks it with the catalogue in force, and keeps it unless it is a dry run.</summary>
    /// <exception cref="StoreUnavailableException">It could not be kept.</exception>
    public Task<DraftOutcome> Draft(string organisation, RulesDraft draft) =>
        Draft(organisation, KnowledgeKind.Rules, draft.BasedOn, draft.DryRun == true, RulesEdit.Of(draft.Upsert ?? [], draft.Remove ?? []));

    private async Task<DraftOutcome> Draft(string organisation, KnowledgeKind kind, string? basedOn, bool dryRun, KnowledgeEdit edit)
    {
        var parent = await Named(organisation, kind, basedOn ?? Current).ConfigureAwait(false);
        if (await Text(organisation, kind, parent).ConfigureAwait(false) is not { } before)
        {
            return DraftOutcome.Wrong([.. edit.Faults, new Fault("/basedOn", "unknown-id", "there is no such version here; give current, or a version that the list shows.")]);
        }

        var after = edit.Faults.Count > 0 ? null : edit.Apply(before);
        if (after is null || edit.Faults.Count > 0)
        {
            return DraftOutcome.Wrong(edit.Faults);
        }

        var beside = await Beside(organisation, kind).ConfigureAwait(false);
        var (_, faults) = edit.Check(before, after, text => Read(kind, text, beside));
        if (faults.Count > 0)
        {
            return DraftOutcome.Wrong(faults);
        }

        var changes = KnowledgeChange.Between(before, after);
        var isNew = !dryRun && await versions.Keep(organisation, kind, after, parent, clock.GetUtcNow()).ConfigureAwait(false);
        return new DraftOutcome(after.Version, parent, changes, isNew, []);
    }

    /// <summary>What differs between two versions; null when one is not here.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<IReadOnlyList<KnowledgeChange>?> Between(string organisation, KnowledgeKind kind, string from, string to) =>
        await Text(organisation, kind, from).ConfigureAwait(false) is { } before && await Text(organisation, kind, to).ConfigureAwait(false) is { } after ? KnowledgeChange.Between(before, after) : null;

    /// <summary>
    /// Puts a kept version in force, at once and for every later answer; an older one rolls back. Where what is in force cannot be read, and its half of the other kind cannot either, the data folder's goes with
    /// the version instead: an organisation that gets no answers has a way back.
    /// </summary>
    /// <returns>False with no faults when there is no such version, or it was taken away meanwhile; false with faults when it does not fit what is in force of the other kind, which then stays as it was.</returns>
    /// <exception cref="StoreUnavailableException">It could not be recorded; what was in force stays.</exception>
    public async Task<(bool Done, IReadOnlyList<KnowledgeFault> Faults)> Publish(string organisation, KnowledgeKind kind, string version)
    {
        await publishing.WaitAsync().ConfigureAwait(false);
        try
        {
            while (true)
            {
                // Another program on the same store may have put something in force of the other kind; a pair is made of what is in force now.
                var before = await versions.InForce(organisation).ConfigureAwait(false);
                if (await versions.Read(organisation, kind, version == Current ? Half(before, kind) : version).ConfigureAwait(false) is not { } text)
                {
                    return (false, []);
                }

                var (edition, faults) = await Paired(organisation, kind, text, before).ConfigureAwait(false);
                if (edition is null)
                {
                    return (false, faults);
                }

                if (await versions.Publish(organisation, edition.CatalogueVersion, edition.RulesVersion, before?.Position ?? 0, clock.GetUtcNow()).ConfigureAwait(false) is { } position)
                {
                    inForce.Replace(organisation, edition, position);
                    return (true, []);
                }
            }
        }
        finally
        {
            publishing.Release();
        }
    }

    /// <summary>The edition of a version of one kind, or of the current one, with what is in force of the other; null when there is no such version.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public async Task<Edition?> With(string organisation, KnowledgeKind kind, string version)
    {
        var now = await inForce.Of(organisation).ConfigureAwait(false);
        return kind == KnowledgeKind.Catalogue
            ? await editions.Of(organisation, version == Current ? now.CatalogueVersion : version, now.RulesVersion).ConfigureAwait(false)
            : await editions.Of(organisation, now.CatalogueVersion, version == Current ? now.RulesVersion : version).ConfigureAwait(false);
    }

    /// <summary>Takes a draft away.</summary>
    /// <returns>Whether it was a draft and is gone.</returns>
    /// <exception cref="StoreUnavailableException">It could not be taken away.</exception>
    public Task<bool> Discard(string organisation, KnowledgeKind kind, string version) => versions.Discard(organisation, kind, version);

    /// <inheritdoc/>
    public void Dispose() => publishing.Dispose();

    /// <summary>
    /// A version with what is in force of the other kind, checked in full. Where nothing in force can be read, the data folder's stands in for the other kind; a half that can be read, even beside the data
    /// folder's alone, is never given up for a version that does not fit it.
    /// </summary>
    private async Task<(Edition? Edition, IReadOnlyList<KnowledgeFault> Faults)> Paired(string organisation, KnowledgeKind kind, KnowledgeText text, Publication? before)
    {
        var other = kind == KnowledgeKind.Catalogue ? KnowledgeKind.Rules : KnowledgeKind.Catalogue;
        var (catalogue, rules) = (Half(before, KnowledgeKind.Catalogue), Half(before, KnowledgeKind.Rules));
        if (await Undamaged(organisation, other, Half(before, other)).ConfigureAwait(false) is { } beside)
        {
            var pair = Check(kind, text, beside);
            if (pair.Edition is not null
                || await editions.Of(organisation, catalogue, rules).ConfigureAwait(false) is not null
                || await editions.Of(organisation, Half(kind == KnowledgeKind.Catalogue ? null : before, KnowledgeKind.Catalogue), Half(kind == KnowledgeKind.Rules ? null : before, KnowledgeKind.Rules)).ConfigureAwait(false) is not null)
            {
                return pair;
            }
        }

        return Check(kind, text, await versions.Read(organisation, other, Half(null, other)).ConfigureAwait(false) ?? throw new StoreUnavailableException("The version of the data folder is not in the store."));
    }

    private (Edition? Edition, IReadOnlyList<KnowledgeFault> Faults) Check(KnowledgeKind kind, KnowledgeText text, KnowledgeText beside)
    {
        try
        {
            return (Read(kind, text, beside), []);
        }
        catch (InvalidKnowledgeException e)
        {
            return (null, e.Faults);
        }
    }

    /// <summary>The text of a version; null when there is none, or what is stored is not it.</summary>
    private async Task<KnowledgeText?> Undamaged(string organisation, KnowledgeKind kind, string version)
    {
        try
        {
            return await versions.Read(organisation, kind, version).ConfigureAwait(false);
        }
        catch (InvalidDataException)
        {
            return null;
        }
    }

    /// <summary>The version of a kind in a pair that was put in force; the data folder's where none was.</summary>
    private string Half(Publication? published, KnowledgeKind kind) =>
        kind == KnowledgeKind.Catalogue ? published?.Catalogue ?? start.Edition.CatalogueVersion : published?.Rules ?? start.Edition.RulesVersion;

    /// <summary>What is in force of the other kind.</summary>
    private async Task<KnowledgeText> Beside(string organisation, KnowledgeKind kind) =>
        await Text(organisation, kind == KnowledgeKind.Catalogue ? KnowledgeKind.Rules : KnowledgeKind.Catalogue, Current).ConfigureAwait(false)
            ?? throw new StoreUnavailableException("The version in force is not in the store.");

    private Edition Read(KnowledgeKind kind, KnowledgeText text, KnowledgeText beside) =>
        KnowledgeReader.Read(kind == KnowledgeKind.Catalogue ? new StoredKnowledge(text, beside) : new StoredKnowledge(beside, text), start.Folder);
}

/// <summary>What became of a draft.</summary>
/// <param name="Version">Its version; null when it is wrong.</param>
/// <param name="BasedOn">The version that it was made from.</param>
/// <param name="Changes">What differs from that.</param>
/// <param name="Kept">Whether it was kept now; false on a dry run, and when it was kept before.</param>
/// <param name="Faults">Everything that is wrong.</param>
public sealed record DraftOutcome(string? Version, string? BasedOn, IReadOnlyList<KnowledgeChange> Changes, bool Kept, IReadOnlyList<Fault> Faults)
{
    /// <summary>A draft that is wrong.</summary>
    internal static DraftOutcome Wrong(IReadOnlyList<Fault> faults) => new(null, null, [], false, faults);
}
