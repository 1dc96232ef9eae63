namespace Recommender.Storage.Decisions;

/// <summary>What one caller waits to have stored: its rows, the key they belong to, or both.</summary>
internal sealed class PendingAppend(string organisation, DecisionRow[] rows, ClaimRow? claim)
{
    public string Organisation { get; } = organisation;

    public DecisionRow[] Rows { get; } = rows;

    public ClaimRow? Claim { get; } = claim;

    public long Bytes { get; } = rows.Sum(r => (long)r.Request.Length + r.Answer.Length + (r.Personal?.Length ?? 0)) + (claim?.Response.Length ?? 0);

    /// <summary>Whether it is in the transaction; false when its key was taken.</summary>
    public bool Stored { get; set; }

    public TaskCompletionSource<bool> Done { get; } = new(TaskCreationOptions.RunContinuationsAsynchronously);
}
