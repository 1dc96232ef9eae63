namespace Recommender.Api.Tests.Hosting;

/// <summary>The checkout that the tests were built in.</summary>
public static class Repository
{
    /// <summary>Whether approved files are to be rewritten instead of compared.</summary>
    public static bool Approve => Environment.GetEnvironmentVariable("RECOMMENDER_APPROVE") == "1";

    public static string File(params string[] path)
    {
        var folder = AppContext.BaseDirectory;
        while (!System.IO.File.Exists(Path.Combine(folder, "Recommender.sln")))
        {
            folder = Path.GetDirectoryName(folder) ?? throw new InvalidOperationException("The tests do not run inside the checkout.");
        }

        return Path.Combine([folder, .. path]);
    }
}
