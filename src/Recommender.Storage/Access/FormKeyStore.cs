using Dapper;

namespace Recommender.Storage.Access;

/// <summary>Keys of form tokens that replicas share. They are of the whole service, and in no backup: a restored one makes its own.</summary>
/// <param name="store">The open store.</param>
public sealed class FormKeyStore(Store store)
{
    /// <summary>Their table.</summary>
    internal const string Table = "form_keys";

    private const string All = "SELECT content FROM form_keys ORDER BY name";

    private const string Insert = """
        INSERT INTO form_keys (name, content)
        VALUES (@name, @content)
        ON CONFLICT (name) DO UPDATE
        SET content = excluded.content
        """;

    /// <summary>All keys, by name.</summary>
    /// <exception cref="Decisions.StoreUnavailableException">The store cannot be read.</exception>
    public IReadOnlyList<string> Read() => store.UseNow(c => c.Query<string>(All).AsList());

    /// <summary>Keeps a key.</summary>
    /// <exception cref="Decisions.StoreUnavailableException">It could not be kept.</exception>
    public void Keep(string name, string content) => store.UseNow(c => c.Execute(Insert, new { name, content }));
}
