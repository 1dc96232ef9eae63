using System.Text.Json.Serialization;

namespace Recommender.Domain.Catalogue;

/// <summary>How quickly tissue is loaded, gentlest first.</summary>
[JsonConverter(typeof(KebabEnumConverter<LoadingRate>))]
public enum LoadingRate
{
    /// <summary>A hold.</summary>
    Isometric,

    /// <summary>A controlled lift or lowering.</summary>
    Slow,

    /// <summary>Explosive without a flight and landing.</summary>
    Fast,

    /// <summary>A landing or a ground contact after flight.</summary>
    Impact,
}
