using System.Text.Json.Serialization;
using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>Time of the training year. The order is that of the phase columns in data/rules.</summary>
[JsonConverter(typeof(KebabEnumConverter<Phase>))]
public enum Phase
{
    /// <summary>General preparation.</summary>
    GeneralPreparation,

    /// <summary>Specific preparation.</summary>
    SpecificPreparation,

    /// <summary>Pre-competition.</summary>
    PreCompetition,

    /// <summary>Competition.</summary>
    Competition,

    /// <summary>Taper.</summary>
    Taper,

    /// <summary>Transition.</summary>
    Transition,
}
