using System.Text.Json.Serialization;
using Recommender.Domain.Catalogue;

namespace Recommender.Domain.Knowledge;

/// <summary>Stages of a staged loading programme, earliest first; the vocabulary names the same words in the same order.</summary>
[JsonConverter(typeof(KebabEnumConverter<LoadingStage>))]
public enum LoadingStage
{
    /// <summary>Holds that settle pain.</summary>
    Isometric,

    /// <summary>Slow work that grows heavier.</summary>
    SlowHeavy,

    /// <summary>Jumps, bounds and other work that stores energy.</summary>
    EnergyStorage,

    /// <summary>Back to the event.</summary>
    Return,
}
