using System.Diagnostics;

namespace Recommender.Browser.Tests.Hosting;

/// <summary>The system's Chromium: the driver brings no browser of its own, and none is downloaded but by the system's package manager.</summary>
internal static class Chromium
{
    private static readonly Lazy<Task<string>> Installed = new(Install);
    private static readonly string[] Places = ["/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome"];

    /// <summary>Where it is, or null.</summary>
    public static string? Path => Environment.GetEnvironmentVariable("RECOMMENDER_CHROMIUM") ?? Places.FirstOrDefault(File.Exists);

    /// <summary>Why the tests cannot run; null when they can.</summary>
    public static string? CannotBeHad => Path is not null || CanInstall ? null : "No Chromium here, and this user may not install one: apt-get install chromium, or set RECOMMENDER_CHROMIUM to a Chromium.";

    private static bool CanInstall => OperatingSystem.IsLinux() && Environment.UserName == "root" && File.Exists("/usr/bin/apt-get");

    /// <summary>Installs it where it is missing; once, however many ask.</summary>
    public static Task<string> Have() => Installed.Value;

    private static async Task<string> Install()
    {
        if (Path is null)
        {
            await Run("apt-get update -qq");
            await Run("DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends chromium");
        }

        return Path ?? throw new InvalidOperationException("Chromium was installed and is not where it is expected; set RECOMMENDER_CHROMIUM.");
    }

    private static async Task Run(string command)
    {
        using var process = Process.Start(new ProcessStartInfo("/bin/sh", ["-c", command + " >/dev/null"]))!;
        await process.WaitForExitAsync();
        if (process.ExitCode != 0)
        {
            throw new InvalidOperationException($"\"{command}\" ended with {process.ExitCode}.");
        }
    }
}
