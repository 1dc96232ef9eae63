namespace Recommender.Domain.Knowledge;

/// <summary>A publication that numbers point to.</summary>
/// <param name="Id">Kebab-case id, e.g. surname-year.</param>
/// <param name="Citation">Full citation.</param>
/// <param name="Year">Year of publication, or null.</param>
/// <param name="Doi">DOI without prefix, or null when not read.</param>
/// <param name="Isbn">ISBN, or null.</param>
/// <param name="Population">Who was studied, or null.</param>
/// <param name="Taken">What is used of it.</param>
/// <param name="Read">How it was read: abstract, text, secondary or not-read.</param>
public sealed record Source(string Id, string Citation, int? Year, string? Doi, string? Isbn, string? Population, string Taken, string Read);
