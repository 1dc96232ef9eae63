using System.Text.Json.Serialization;

namespace Recommender.Domain.Catalogue;

/// <summary>How the body stands while the exercise is done.</summary>
[JsonConverter(typeof(KebabEnumConverter<Support>))]
public enum Support
{
    /// <summary>Both feet share the load evenly.</summary>
    Double,

    /// <summary>Both feet down, staggered or unevenly loaded.</summary>
    Split,

    /// <summary>One leg at a time, also in turns.</summary>
    Single,

    /// <summary>Lying, hanging, kneeling, sitting or crawling.</summary>
    OffFeet,
}
