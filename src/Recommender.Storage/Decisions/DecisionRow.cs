using Recommender.Domain.Decisions;

namespace Recommender.Storage.Decisions;

/// <summary>A decision as it lies in the table.</summary>
internal sealed class DecisionRow
{
    public string Organisation { get; init; } = "";

    public string DecisionId { get; init; } = "";

    public string Kind { get; init; } = "";

    public long CreatedAt { get; init; }

    public string Status { get; init; } = "";

    public string? Top { get; init; }

    public long Engine { get; init; }

    public string CatalogueVersion { get; init; } = "";

    public string RulesVersion { get; init; } = "";

    public string? PreferenceVersion { get; init; }

    public string? AthleteRef { get; init; }

    public byte[]? Personal { get; init; }

    public byte[]? PersonalSalt { get; init; }

    public byte[] PersonalHash { get; init; } = [];

    public byte[] Request { get; init; } = [];

    public byte[] Answer { get; init; } = [];

    public byte[] ContentHash { get; init; } = [];

    public byte[] PreviousHash { get; set; } = [];

    public byte[] Hash { get; set; } = [];

    /// <summary>The row of a record; the answer is packed, the link is set when it is appended.</summary>
    public static DecisionRow Of(DecisionRecord record) => new()
    {
        Organisation = record.Organisation,
        DecisionId = record.DecisionId,
        Kind = record.Kind,
        CreatedAt = record.CreatedAt.ToUnixTimeMilliseconds(),
        Status = record.Status,
        Top = record.Top,
        Engine = record.Versions.Engine,
        CatalogueVersion = record.Versions.Catalogue,
        RulesVersion = record.Versions.Rules,
        PreferenceVersion = record.Versions.Preference,
        AthleteRef = record.AthleteRef,
        Personal = record.Personal.IsEmpty ? null : record.Personal.ToArray(),
        PersonalSalt = record.PersonalSalt.ToArray(),
        PersonalHash = record.PersonalHash.ToArray(),
        Request = record.Request.ToArray(),
        Answer = Packing.Pack(record.Answer.Span),
        ContentHash = record.ContentHash.ToArray(),
    };

    /// <summary>The record of the row.</summary>
    public StoredDecision ToStored() => new(
        new DecisionRecord
        {
            Organisation = Organisation,
            DecisionId = DecisionId,
            Kind = Kind,
            CreatedAt = DateTimeOffset.FromUnixTimeMilliseconds(CreatedAt),
            Status = Status,
            Top = Top,
            Versions = new VersionStamp((int)Engine, CatalogueVersion, RulesVersion, PreferenceVersion),
            Request = Request,
            Personal = Personal,
            AthleteRef = AthleteRef,
            PersonalSalt = PersonalSalt,
            PersonalHash = PersonalHash,
            Answer = Packing.Unpack(Answer),
            ContentHash = ContentHash,
        },
        Hash,
        PreviousHash,
        PersonalSalt is null);
}
