using Recommender.Api.Hosting;
using Recommender.Domain.Requests;

namespace Recommender.Api.Decisions;

/// <summary>The query of a question about a decision: exercise ids, each given exactly once.</summary>
public sealed class AuditQuery
{
    /// <summary>Parameters of a comparison, with what each is.</summary>
    internal static readonly (string Name, string Description, string Example)[] OfComparison =
    [
        ("first", "Exercise id.", "back-squat"),
        ("second", "Exercise id of another one.", "front-squat"),
    ];

    /// <summary>Parameters of counterfactuals.</summary>
    internal static readonly (string Name, string Description, string Example)[] OfCounterfactuals = [("exercise", "Exercise id that should have come first, or in.", "depth-jump")];

    private readonly Dictionary<string, string> values = new(StringComparer.Ordinal);

    private AuditQuery(IReadOnlyList<Fault> faults) => Faults = faults;

    /// <summary>What is wrong; empty when every parameter is there once and no other.</summary>
    public IReadOnlyList<Fault> Faults { get; }

    /// <summary>The value of a parameter; only without faults.</summary>
    public string this[string name] => values[name];

    /// <summary>Reads a query.</summary>
    internal static AuditQuery Read(IQueryCollection query, (string Name, string Description, string Example)[] parameters)
    {
        var reader = new QueryReader(query, [.. parameters.Select(p => p.Name)]);
        var read = new AuditQuery(reader.Faults);
        foreach (var (name, _, example) in parameters)
        {
            if (reader.One(name) is { } value)
            {
                read.values[name] = value;
            }
            else if (query[name].Count < 2)
            {
                reader.Add(name, "required", $"is missing; give an exercise id, such as {example}.");
            }
        }

        return read;
    }
}
