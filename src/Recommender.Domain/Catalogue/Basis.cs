using System.Text.Json.Serialization;

namespace Recommender.Domain.Catalogue;

/// <summary>Where a number comes from, strongest first, so that the weakest of several is the largest value.</summary>
[JsonConverter(typeof(KebabEnumConverter<Basis>))]
public enum Basis
{
    /// <summary>A printed number, or a stated conversion of one; always with a source.</summary>
    Published,

    /// <summary>Estimated by the tissue-load model.</summary>
    Modelled,

    /// <summary>Agreed among practitioners; no number was printed for it.</summary>
    CommonPractice,

    /// <summary>From memory of a source that has not been read again.</summary>
    Recalled,
}
