namespace Recommender.Storage.Decisions;

/// <summary>A claimed key as it lies in the table.</summary>
internal sealed class ClaimRow
{
    public string Organisation { get; init; } = "";

    public string Key { get; init; } = "";

    public byte[] BodyHash { get; init; } = [];

    public byte[] Response { get; init; } = [];

    public int Status { get; init; }

    public long CreatedAt { get; init; }

    public long NotBefore { get; init; }

    public IReadOnlyCollection<string> AthleteRefs { get; init; } = [];

    public string? DecisionId { get; init; }

    public static ClaimRow Of(string organisation, IdempotencyClaim claim, Packings packings) => new()
    {
        Organisation = organisation,
        Key = claim.Key,
        BodyHash = claim.BodyHash.ToArray(),
        Response = packings.Pack(claim.Response.Span),
        Status = claim.Status,
        CreatedAt = claim.CreatedAt.ToUnixTimeMilliseconds(),
        NotBefore = claim.NotBefore.ToUnixTimeMilliseconds(),
        AthleteRefs = claim.AthleteRefs,
        DecisionId = claim.OfDecision,
    };
}
