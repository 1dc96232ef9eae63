using System.Diagnostics;

namespace Recommender.Testing.Postgres;

/// <summary>The PostgreSQL programs of this machine; installed from the distribution's package where they are missing and may be.</summary>
public static class PostgresPrograms
{
    private static readonly string[] Places = ["/usr/lib/postgresql", "/usr/pgsql", "/usr/local/pgsql"];

    /// <summary>Set to 1 where their absence is a failure and no reason to skip; so is the usual mark of a build server.</summary>
    private const string Required = "RECOMMENDER_REQUIRE_POSTGRES";

    private const string BuildServer = "CI";

    private static readonly Lazy<(string? Folder, string? WhyNot)> Found = new(FindOrInstall);

    /// <summary>Why there are none here; null where there are.</summary>
    /// <exception cref="InvalidOperationException">There are none, and they are required.</exception>
    public static string? WhyNot => Found.Value.WhyNot is { } why && (Environment.GetEnvironmentVariable(Required) is "1" || !string.IsNullOrEmpty(Environment.GetEnvironmentVariable(BuildServer)))
        ? throw new InvalidOperationException($"{why} {Required}=1 or {BuildServer} makes that a failure.")
        : Found.Value.WhyNot;

    /// <summary>Whether this process may act as another user, as the server must not run as root.</summary>
    public static bool IsRoot => Environment.UserName == "root";

    /// <summary>Full path of a program.</summary>
    public static string Path(string program) => System.IO.Path.Combine(Found.Value.Folder!, program);

    private static (string? Folder, string? WhyNot) FindOrInstall()
    {
        if (Find() is { } found)
        {
            return (found, null);
        }

        if (!IsRoot || !File.Exists("/usr/bin/apt-get"))
        {
            return (null, "PostgreSQL is not installed, and only root on a Debian system can install it (apt-get install postgresql).");
        }

        // Test assemblies run beside one another; dpkg's own lock lets one install and the others wait for it.
        _ = Run("apt-get", "update", "-qq");
        var said = Run("apt-get", "install", "-y", "-qq", "--no-install-recommends", "-o", "DPkg::Lock::Timeout=180", "postgresql");
        return Find() is { } installed ? (installed, null) : (null, $"PostgreSQL could not be installed: {said.Trim()}");
    }

    private static string? Find() =>
        Places.Where(Directory.Exists).SelectMany(f => Directory.GetDirectories(f).Append(f))
            .Select(f => System.IO.Path.Combine(f, "bin")).Where(f => File.Exists(System.IO.Path.Combine(f, "initdb"))).Order(StringComparer.Ordinal).LastOrDefault();

    private static string Run(string program, params string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true };
        start.Environment["DEBIAN_FRONTEND"] = "noninteractive";
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return error.Result;
    }
}
