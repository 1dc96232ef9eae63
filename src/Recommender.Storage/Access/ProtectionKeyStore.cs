using Dapper;

namespace Recommender.Storage.Access;

/// <summary>Keeps what protects form tokens and sign-in cookies, so that they outlive a restart and hold on every program of the store.</summary>
/// <param name="store">The open store.</param>
public sealed class ProtectionKeyStore(Store store)
{
    private const string All = """
        SELECT content
        FROM protection_keys
        ORDER BY created_at, name
        """;

    private const string Insert = """
        INSERT INTO protection_keys (name, content, created_at)
        VALUES (@name, @content, @createdAt)
        ON CONFLICT (name) DO NOTHING
        """;

    /// <summary>All of them, oldest first.</summary>
    /// <exception cref="Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public async Task<IReadOnlyList<string>> ReadAll() => [.. await store.Use(c => c.QueryAsync<string>(All)).ConfigureAwait(false)];

    /// <summary>Keeps one.</summary>
    /// <param name="name">Its name; a second of the same name is not kept.</param>
    /// <param name="content">Its text.</param>
    /// <param name="now">When.</param>
    /// <exception cref="Decisions.StoreUnavailableException">It could not be kept.</exception>
    public Task Add(string name, string content, DateTimeOffset now) => store.Use(c => c.ExecuteAsync(Insert, new { name, content, createdAt = now.ToUnixTimeMilliseconds() }));
}
