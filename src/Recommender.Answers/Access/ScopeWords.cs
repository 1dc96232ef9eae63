namespace Recommender.Answers.Access;

/// <summary>Scopes as words.</summary>
public static class ScopeWords
{
    private static readonly (Scopes Scope, string Word)[] Words =
        [(Scopes.Recommend, "recommend"), (Scopes.Audit, "audit"), (Scopes.Curate, "curate"), (Scopes.Admin, "admin")];

    /// <summary>Every word, in order.</summary>
    public static IReadOnlyList<string> All { get; } = [.. Words.Select(w => w.Word)];

    /// <summary>The words of some scopes, in order.</summary>
    public static IReadOnlyList<string> Of(Scopes scopes) => [.. Words.Where(w => scopes.HasFlag(w.Scope)).Select(w => w.Word)];

    /// <summary>The scope of a word; none for an unknown one.</summary>
    public static Scopes Read(string? word) => Words.FirstOrDefault(w => w.Word == word).Scope;

    /// <summary>The scopes of words; unknown ones give nothing.</summary>
    public static Scopes Read(IEnumerable<string> words) => words.Aggregate(Scopes.None, (sum, word) => sum | Read(word));
}
