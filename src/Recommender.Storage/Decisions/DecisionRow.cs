using Recommender.Domain.Decisions;

namespace Recommender.Storage.Decisions;

/// <summary>A decision as it lies in the table.</summary>
internal sealed class DecisionRow
{
    private RecordHash? body;

    public string Organisation { get; init; } = "";

    public long Sequence { get; private set; }

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

    public string? Coach { get; init; }

    public byte[]? Personal { get; init; }

    public byte[]? PersonalSalt { get; init; }

    public byte[] PersonalHash { get; init; } = [];

    public byte[] Request { get; init; } = [];

    public byte[] Answer { get; init; } = [];

    public byte[]? Facts { get; init; }

    public byte[] PreviousHash { get; private set; } = [];

    public byte[] Hash { get; private set; } = [];

    public IReadOnlyList<string> Exercises { get; init; } = [];

    /// <summary>The row of a record, packed; it has no place in the chain yet.</summary>
    public static DecisionRow Of(DecisionRecord record, Packings packings) => new()
    {
        body = new RecordHash(record),
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
        Coach = record.Coach,
        Personal = record.Personal.IsEmpty ? null : record.Personal.ToArray(),
        PersonalSalt = record.PersonalSalt.ToArray(),
        PersonalHash = record.PersonalHash.ToArray(),
        Request = packings.Pack(record.Request.Span),
        Answer = packings.Pack(record.Answer.Span),
        Facts = record.Facts.IsEmpty ? null : record.Facts.ToArray(),
        Exercises = record.Exercises,
    };

    /// <summary>Gives the row its place.</summary>
    /// <param name="head">End of the chain before it.</param>
    /// <returns>End of the chain with it.</returns>
    public ChainHead Follow(ChainHead head)
    {
        Sequence = head.Sequence + 1;
        PreviousHash = head.Hash;
        Hash = body!.At(Sequence, PreviousHash);
        return new ChainHead { Organisation = Organisation, Sequence = Sequence, Hash = Hash };
    }

    /// <summary>The record of the row.</summary>
    /// <exception cref="InvalidDataException">It is damaged.</exception>
    public StoredDecision ToStored(Packings packings) => new(
        new DecisionRecord
        {
            Organisation = Organisation,
            DecisionId = DecisionId,
            Kind = Kind,
            CreatedAt = DateTimeOffset.FromUnixTimeMilliseconds(CreatedAt),
            Status = Status,
            Top = Top,
            Versions = Versions,
            Request = packings.Unpack(Request),
            Personal = Personal,
            AthleteRef = AthleteRef,
            Coach = Coach,
            PersonalSalt = PersonalSalt,
            PersonalHash = PersonalHash,
            Answer = packings.Unpack(Answer),
            Facts = Facts,
        },
        Sequence,
        Hash,
        PreviousHash,
        PersonalSalt is null);

    /// <summary>What a list shows of the row.</summary>
    public DecisionSummary ToSummary() =>
        new(DecisionId, Kind, DateTimeOffset.FromUnixTimeMilliseconds(CreatedAt), AthleteRef, Coach, Status, Top, Versions, Sequence);

    private VersionStamp Versions => new((int)Engine, CatalogueVersion, RulesVersion, PreferenceVersion);
}

/// <summary>End of an organisation's chain.</summary>
internal sealed class ChainHead
{
    public string Organisation { get; init; } = "";

    public long Sequence { get; init; }

    public byte[] Hash { get; init; } = [];

    /// <summary>End of a chain that has no record.</summary>
    public static ChainHead Empty(string organisation) => new() { Organisation = organisation, Hash = RecordHash.Genesis.ToArray() };
}
