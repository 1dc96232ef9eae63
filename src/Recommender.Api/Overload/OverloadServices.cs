using Microsoft.AspNetCore.Server.Kestrel.Core;

namespace Recommender.Api.Overload;

/// <summary>Registers and places what keeps the service up under load and lets it stop in order.</summary>
public static class OverloadServices
{
    /// <summary>Registers it.</summary>
    /// <exception cref="Hosting.InvalidSettingException">A limit cannot be used.</exception>
    public static void AddOverload(this IServiceCollection services, IConfiguration configuration)
    {
        var limits = WorkLimits.Of(configuration, Environment.ProcessorCount);
        services.AddSingleton(limits);
        services.AddSingleton<Admission>();
        services.AddSingleton<Drain>();
        services.AddHostedService(s => s.GetRequiredService<Drain>());

        // For each write of any answer; over the whole of a long one it is held by ReaderPace.
        services.Configure<KestrelServerOptions>(o => o.Limits.MinResponseDataRate = new MinDataRate(limits.ReaderBytesPerSecond, TimeSpan.FromSeconds(limits.ReaderSeconds)));
        services.Configure<HostOptions>(o => o.ShutdownTimeout = TimeSpan.FromSeconds(limits.DrainSeconds + limits.StopSeconds));
    }

    /// <summary>Puts it before the endpoints.</summary>
    public static void UseOverload(this WebApplication app)
    {
        // Long work computes on the pool's threads; without some to spare single questions would wait until the pool grows.
        var limits = app.Services.GetRequiredService<WorkLimits>();
        ThreadPool.GetMinThreads(out var workers, out var ports);
        ThreadPool.SetMinThreads(Math.Max(workers, Environment.ProcessorCount + limits.Several + limits.Walks), ports);
        Drain.Use(app);
        Admission.Use(app);
    }
}
