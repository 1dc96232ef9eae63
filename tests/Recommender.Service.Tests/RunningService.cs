using Recommender.Testing;

namespace Recommender.Service.Tests;

/// <summary>One service for the tests of a class.</summary>
public sealed class RunningService : IAsyncLifetime
{
    /// <summary>The service, listening.</summary>
    public ServiceProcess Service { get; private set; } = null!;

    public async Task InitializeAsync() => Service = await ServiceProcess.Start();

    public Task DisposeAsync()
    {
        Service.Dispose();
        return Task.CompletedTask;
    }
}
