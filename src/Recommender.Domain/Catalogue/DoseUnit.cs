using System.Text.Json.Serialization;

namespace Recommender.Domain.Catalogue;

/// <summary>What an exercise is counted in.</summary>
[JsonConverter(typeof(KebabEnumConverter<DoseUnit>))]
public enum DoseUnit
{
    /// <summary>Repetitions.</summary>
    Reps,

    /// <summary>Seconds of a hold.</summary>
    Seconds,

    /// <summary>Metres travelled.</summary>
    Metres,

    /// <summary>Landings of one foot, or of both together.</summary>
    Contacts,
}
