using System.Text.Json;
using System.Text.Json.Serialization;
using Recommender.Domain.Catalogue;

namespace Recommender.Learning;

/// <summary>Two exercises of one study, of which the first loads a region, or trains a quality, at least as much as the second.</summary>
/// <param name="Region">Region whose load is compared, or null.</param>
/// <param name="Quality">Quality whose rating is compared, or null.</param>
/// <param name="Higher">Exercise id of the higher one; the catalogue need not hold it.</param>
/// <param name="Lower">Exercise id of the lower one; the catalogue need not hold it.</param>
/// <param name="Source">Source id of the one study.</param>
/// <param name="Printed">What the study says, in its words for the tasks.</param>
public sealed record PublishedOrder(string? Region, string? Quality, string Higher, string Lower, string Source, string Printed)
{
    /// <summary>Whether the catalogue holds both exercises.</summary>
    public bool CanBeExpressed(ExerciseCatalogue catalogue) => catalogue.Find(Higher) is not null && catalogue.Find(Lower) is not null;

    /// <summary>The catalogue's two numbers; 0 where an exercise does not list the region or quality.</summary>
    public (decimal Higher, decimal Lower) In(ExerciseCatalogue catalogue) => (Number(catalogue, Higher), Number(catalogue, Lower));

    private decimal Number(ExerciseCatalogue catalogue, string id)
    {
        var exercise = catalogue.Find(id)!;
        return Region is { } region
            ? ExerciseCatalogue.LoadOn(exercise, catalogue.Vocabulary.Regions.Find(region)!)?.Value ?? 0
            : exercise.Qualities.GetValueOrDefault(Quality!)?.Value ?? 0;
    }
}

/// <summary>data/orders/published-orders.json: what the catalogue's order is held against; nothing is computed from it.</summary>
public static class PublishedOrders
{
    /// <summary>Path below the data folder.</summary>
    public const string File = "orders/published-orders.json";

    /// <summary>Reads the orders.</summary>
    /// <param name="folder">The data folder.</param>
    public static IReadOnlyList<PublishedOrder> Read(string folder)
    {
        using var document = JsonDocument.Parse(System.IO.File.ReadAllBytes(Path.Combine(folder, File)));
        return document.RootElement.GetProperty("orders").Deserialize(OrdersJson.Default.IReadOnlyListPublishedOrder)!;
    }
}

[JsonSourceGenerationOptions(PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase, UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow, RespectRequiredConstructorParameters = false)]
[JsonSerializable(typeof(IReadOnlyList<PublishedOrder>))]
internal sealed partial class OrdersJson : JsonSerializerContext;
