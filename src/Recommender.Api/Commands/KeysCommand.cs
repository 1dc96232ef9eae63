using System.Globalization;
using Recommender.Answers.Access;
using Recommender.Api.Hosting;
using Recommender.Domain.Decisions;
using Recommender.Storage.Access;
using Recommender.Storage.Decisions;

namespace Recommender.Api.Commands;

/// <summary>Makes, lists, changes and ends keys on the configured store, without a running service; one may run beside it.</summary>
public static class KeysCommand
{
    /// <summary>The command.</summary>
    public const string Name = "keys";

    private const string Usage = """
        keys create --organisation NAME --scopes recommend,audit,curate,admin [--note TEXT] [--expires-in-days N]
        keys list [--organisation NAME]
        keys rotate ID [--overlap-minutes N]
        keys revoke ID
        """;

    /// <summary>Runs it.</summary>
    /// <param name="args">Arguments of the program, the command first.</param>
    /// <param name="configuration">Gives the store.</param>
    /// <param name="output">Takes a key alone on a line, or the list.</param>
    /// <param name="error">Takes what is told beside it, and what keeps it from running.</param>
    /// <param name="clock">Gives the time.</param>
    /// <returns>Exit code: 0 done, 1 there is no such key or no more may be made, 2 the command cannot run.</returns>
    public static async Task<int> Run(string[] args, IConfiguration configuration, TextWriter output, TextWriter error, TimeProvider clock)
    {
        try
        {
            var (words, options) = Read(args.Skip(1));
            using var store = Settings.Of(configuration).Store.Open();
            var kept = new AccessKeyStore(store);
            var keys = new AccessKeys(kept, clock);
            return words switch
            {
                ["create"] => await Create(keys, options, output, error),
                ["list"] => await List(kept, options, output, clock.GetUtcNow()),
                ["rotate", var id] => await Rotate(keys, kept, id, options, output, error),
                ["revoke", var id] => await Revoke(keys, kept, id, options, error),
                _ => throw new InvalidSettingException($"It is not clear what to do. There are:\n{Usage}"),
            };
        }
        catch (Exception e) when (e is InvalidSettingException or StoreUnavailableException)
        {
            await error.WriteLineAsync(e.Message);
            return 2;
        }
    }

    private static async Task<int> Create(AccessKeys keys, Dictionary<string, string> options, TextWriter output, TextWriter error)
    {
        var organisation = Take(options, "organisation");
        if (!AccessKeys.IsOrganisation(organisation))
        {
            throw new InvalidSettingException($"--organisation is {(organisation is null ? "missing" : $"\"{organisation}\"")}; give 1 to {AccessKeys.LongestOrganisation} lower-case letters, digits and dashes, for example {Caller.LocalOrganisation}, which has the demo squad.");
        }

        var words = (Take(options, "scopes") ?? "").Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
        if (words.Length == 0 || words.Any(w => ScopeWords.Read(w) == Scopes.None))
        {
            throw new InvalidSettingException($"--scopes holds {(words.Length == 0 ? "nothing" : string.Join(",", words))}; give some of {string.Join(",", ScopeWords.All)}.");
        }

        var note = Take(options, "note");
        if (note is not null && (note.Length is 0 or > AccessKeys.LongestNote || note.Any(char.IsControl)))
        {
            throw new InvalidSettingException($"--note is empty, longer than {AccessKeys.LongestNote} characters or holds control characters.");
        }

        var days = Number(options, "expires-in-days", 1, AccessKeys.LongestLifeDays);
        Nothing(options);
        if (await keys.Create(organisation!, ScopeWords.Read(words), note, days is { } d ? TimeSpan.FromDays(d) : null) is not var (secret, kept))
        {
            await error.WriteLineAsync($"{organisation} has {AccessKeys.Most} keys that have not been ended; end one first.");
            return 1;
        }

        await error.WriteLineAsync($"Key {kept.KeyId} of {kept.Organisation}: {kept.Scopes}{(kept.ExpiresAt is { } end ? $", until {RecordHash.Moment(end)}" : "")}. It is shown this once; keep it where secrets are kept.");
        await output.WriteLineAsync(secret.Reveal());
        return 0;
    }

    private static async Task<int> List(AccessKeyStore store, Dictionary<string, string> options, TextWriter output, DateTimeOffset now)
    {
        var organisation = Take(options, "organisation");
        Nothing(options);
        foreach (var key in organisation is null ? await store.ListAll() : await store.List(organisation))
        {
            var state = key.RevokedAt is { } ended ? $"revoked {RecordHash.Moment(ended)}" : key.IsUsable(now) ? "usable" : "expired";
            await output.WriteLineAsync($"{key.KeyId}  {key.Organisation}  {state}  {key.Scopes}  made {RecordHash.Moment(key.CreatedAt)}{(key.ExpiresAt is { } end ? $"  ends {RecordHash.Moment(end)}" : "")}{(key.Note is null ? "" : $"  {key.Note}")}");
        }

        return 0;
    }

    private static async Task<int> Rotate(AccessKeys keys, AccessKeyStore store, string id, Dictionary<string, string> options, TextWriter output, TextWriter error)
    {
        var overlap = Number(options, "overlap-minutes", 0, AccessKeys.LongestOverlapMinutes) ?? 0;
        Nothing(options);
        if (await store.Read(id) is not { } key || await keys.Rotate(key.Organisation, id, TimeSpan.FromMinutes(overlap)) is not var (secret, kept))
        {
            await error.WriteLineAsync($"There is no usable key {id}.");
            return 1;
        }

        await error.WriteLineAsync($"Key {kept.KeyId} of {kept.Organisation} has another secret, shown this once. The one before {(overlap == 0 ? "holds no more" : $"holds until {RecordHash.Moment(kept.FormerUntil!.Value)}")}.");
        await output.WriteLineAsync(secret.Reveal());
        return 0;
    }

    private static async Task<int> Revoke(AccessKeys keys, AccessKeyStore store, string id, Dictionary<string, string> options, TextWriter error)
    {
        Nothing(options);
        if (await store.Read(id) is not { } key || !await keys.Revoke(key.Organisation, id))
        {
            await error.WriteLineAsync($"There is no key {id} that has not been ended.");
            return 1;
        }

        await error.WriteLineAsync($"Key {id} of {key.Organisation} is ended. Running services refuse it within {AccessKeys.Remembered.TotalSeconds} seconds.");
        return 0;
    }

    /// <summary>Words, and options with their values. Settings of the service (with a colon or an equals sign) are read elsewhere.</summary>
    private static (string[] Words, Dictionary<string, string> Options) Read(IEnumerable<string> args)
    {
        var words = new List<string>();
        var options = new Dictionary<string, string>(StringComparer.Ordinal);
        using var left = args.GetEnumerator();
        while (left.MoveNext())
        {
            var arg = left.Current;
            if (!arg.StartsWith("--", StringComparison.Ordinal))
            {
                words.Add(arg);
            }
            else if (!arg.Contains('=', StringComparison.Ordinal))
            {
                var value = left.MoveNext() ? left.Current : throw new InvalidSettingException($"{arg} needs a value.");
                if (!arg.Contains(':', StringComparison.Ordinal))
                {
                    options[arg[2..]] = value;
                }
            }
        }

        return ([.. words], options);
    }

    private static string? Take(Dictionary<string, string> options, string name) => options.Remove(name, out var value) ? value : null;

    private static int? Number(Dictionary<string, string> options, string name, int low, int high) =>
        Take(options, name) is not { } text ? null
        : int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var number) && number >= low && number <= high ? number
        : throw new InvalidSettingException($"--{name} is \"{text}\"; give a whole number from {low} to {high}.");

    private static void Nothing(Dictionary<string, string> options)
    {
        if (options.Count > 0)
        {
            throw new InvalidSettingException($"--{options.Keys.First()} is not known here. There are:\n{Usage}");
        }
    }
}
