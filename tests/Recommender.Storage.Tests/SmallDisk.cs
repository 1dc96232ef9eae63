using System.Diagnostics;

namespace Recommender.Storage.Tests;

/// <summary>A file system of its own in memory, whose size and writability a test can change. Needs the right to mount.</summary>
public sealed class SmallDisk : IDisposable
{
    public SmallDisk(string size)
    {
        Path = Directory.CreateTempSubdirectory("recommender-disk-").FullName;
        try
        {
            Mount("-t", "tmpfs", "-o", $"size={size}", "tmpfs");
        }
        catch
        {
            Directory.Delete(Path);
            throw;
        }
    }

    public string Path { get; }

    public string File => System.IO.Path.Combine(Path, "recommender.db");

    public void Resize(string size) => Mount("-o", $"remount,size={size}");

    public void MakeReadOnly() => Mount("-o", "remount,ro");

    public void MakeWritable() => Mount("-o", "remount,rw");

    /// <summary>Why there is none here; null where it can be had.</summary>
    public static string? WhyNot()
    {
        try
        {
            using var disk = new SmallDisk("1m");
            return null;
        }
        catch (Exception e) when (e is IOException or System.ComponentModel.Win32Exception)
        {
            return $"Needs the right to mount a file system in memory: {e.Message.Trim()}";
        }
    }

    public void Dispose()
    {
        // Lazily: what a failed test left open must not leave the disk behind.
        Run("umount", "--lazy", Path);
        Directory.Delete(Path);
    }

    private void Mount(params string[] arguments) => Run("mount", [.. arguments, Path]);

    private static void Run(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true })!;
        var error = process.StandardError.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0)
        {
            throw new IOException($"{program} failed: {error}");
        }
    }
}

/// <summary>A test that needs a small disk; skipped, and said so, where none can be had.</summary>
public sealed class SmallDiskFactAttribute : SkippableFactAttribute
{
    private static readonly Lazy<string?> Why = new(SmallDisk.WhyNot);

    public SmallDiskFactAttribute() => Skip = Why.Value!;
}
