using System.Collections.Concurrent;
using Recommender.Domain.Knowledge;
using Recommender.Storage.Decisions;
using Recommender.Storage.Versioning;

namespace Recommender.Answers;

/// <summary>
/// The edition in force of each organisation: what it put in force last, or what the data folder holds until it puts something in force. Read from the store when an organisation asks first. Readers take it
/// once a request, so that an answer is made wholly on one.
/// </summary>
public sealed class EditionInForce
{
    /// <summary>Organisations whose pair is kept in mind, a few hundred bytes each. Beyond them all are forgotten and read again as they ask.</summary>
    private const int MostOrganisations = 20_000;

    /// <summary>Organisations whose newest position is asked for in one statement.</summary>
    private const int AskedAtOnce = 500;

    private readonly ConcurrentDictionary<string, Published> organisations = new(StringComparer.Ordinal);
    private readonly Func<string, Task<Published>> read;
    private readonly Func<Edition, HeldEdition> hold;
    private readonly Func<IReadOnlyCollection<string>, Task<IReadOnlyDictionary<string, long>>> newest;

    /// <param name="versions">Says what was put in force.</param>
    /// <param name="editions">Reads it.</param>
    /// <param name="start">What the data folder holds.</param>
    public EditionInForce(VersionStore versions, Editions editions, KnowledgeAtStart start)
    {
        hold = editions.Hold;
        newest = versions.NewestPositions;
        read = async organisation =>
        {
            if (await versions.InForce(organisation).ConfigureAwait(false) is not { } published)
            {
                return new Published(hold(start.Edition), 0);
            }

            if (await editions.Held(organisation, published.Catalogue, published.Rules).ConfigureAwait(false) is { } held)
            {
                return new Published(held, published.Position);
            }

            // Answers on other numbers than those that were put in force would be worse than none.
            organisations.TryRemove(organisation, out _);
            throw new UnreadableEditionException(organisation, published.Catalogue, published.Rules);
        };
    }

    private EditionInForce(Edition edition)
    {
        hold = e => new HeldEdition(e);
        var always = new Published(hold(edition), 0);
        read = _ => Task.FromResult(always);
        newest = _ => Task.FromResult<IReadOnlyDictionary<string, long>>(new Dictionary<string, long>());
    }

    /// <summary>One edition for every organisation, without a store of versions.</summary>
    public static EditionInForce Always(Edition edition) => new(edition);

    /// <summary>The edition of an organisation now. Done at once unless the organisation asks for the first time or its edition had made room.</summary>
    /// <exception cref="UnreadableEditionException">What was put in force cannot be read.</exception>
    /// <exception cref="StoreUnavailableException">The store cannot be read.</exception>
    public ValueTask<Edition> Of(string organisation) =>
        organisations.TryGetValue(organisation, out var published) && published.Held.Use() is { } edition ? new ValueTask<Edition>(edition) : new ValueTask<Edition>(Refresh(organisation));

    /// <summary>Reads again what is in force of an organisation and takes it over: another program on the same store may have put something in force.</summary>
    /// <returns>The edition in force after it.</returns>
    /// <exception cref="StoreUnavailableException">The store cannot be read, and what was known stays; or what was put in force cannot be read, and the organisation gets no answers until it can.</exception>
    public async Task<Edition> Refresh(string organisation)
    {
        for (; ; )
        {
            var published = await read(organisation).ConfigureAwait(false);
            Keep(organisation, published);
            if (published.Held.Use() is { } edition)
            {
                return edition;
            }
        }
    }

    /// <summary>Takes over what other programs on the same store have put in force since it was last read. An organisation whose new pair cannot be read gets no answers until it can.</summary>
    /// <exception cref="StoreUnavailableException">The store cannot be read, and what was known stays; or what an organisation put in force cannot be read.</exception>
    public async Task CatchUp()
    {
        StoreUnavailableException? unread = null;
        foreach (var some in organisations.Keys.Chunk(AskedAtOnce))
        {
            foreach (var (organisation, position) in await newest(some).ConfigureAwait(false))
            {
                try
                {
                    if (organisations.TryGetValue(organisation, out var known) && known.Position < position)
                    {
                        await Refresh(organisation).ConfigureAwait(false);
                    }
                }
                catch (StoreUnavailableException e)
                {
                    // The others are not to wait for this one.
                    unread = e;
                }
            }
        }

        if (unread is not null)
        {
            throw unread;
        }
    }

    /// <summary>Takes over what an organisation has put in force, at once and for all its later requests.</summary>
    /// <param name="organisation">Whose.</param>
    /// <param name="next">The edition.</param>
    /// <param name="position">Its place among all publications of the store; an earlier one never comes after a later one.</param>
    public void Replace(string organisation, Edition next, long position) => Keep(organisation, new Published(hold(next), position));

    private void Keep(string organisation, Published published)
    {
        if (organisations.Count >= MostOrganisations && !organisations.ContainsKey(organisation))
        {
            organisations.Clear();
        }

        organisations.AddOrUpdate(organisation, published, (_, known) => known.Position > published.Position ? known : published);
    }

    private sealed record Published(HeldEdition Held, long Position);
}
