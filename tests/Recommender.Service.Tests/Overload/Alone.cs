namespace Recommender.Service.Tests.Overload;

/// <summary>
/// Tests that nothing else of this assembly may run beside: those where something must come about while a lock is held or a replica drains, and those that read this process's own memory. Others of
/// the assembly block its few test threads for seconds while a server starts.
/// </summary>
[CollectionDefinition(Name, DisableParallelization = true)]
public sealed class Alone
{
    public const string Name = "alone";
}
