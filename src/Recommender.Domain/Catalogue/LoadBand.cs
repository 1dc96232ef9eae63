using System.Text.Json.Serialization;

namespace Recommender.Domain.Catalogue;

/// <summary>How heavily the exercise is loaded where its ratings hold.</summary>
[JsonConverter(typeof(KebabEnumConverter<LoadBand>))]
public enum LoadBand
{
    /// <summary>Body weight only.</summary>
    Unloaded,

    /// <summary>A load that hardly slows the movement.</summary>
    Light,

    /// <summary>A load for roughly eight to fifteen repetitions.</summary>
    Moderate,

    /// <summary>A load for roughly one to eight repetitions.</summary>
    Heavy,
}
