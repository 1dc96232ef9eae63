namespace Recommender.Storage.Backups;

/// <summary>A table.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Columns">Its columns, in order.</param>
/// <param name="Key">Those of its primary key, in order.</param>
internal sealed record StoredTable(string Name, IReadOnlyList<string> Columns, IReadOnlyList<string> Key);
