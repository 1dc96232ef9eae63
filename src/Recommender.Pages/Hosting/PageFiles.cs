using System.Security.Cryptography;
using System.Text;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Http;
using Microsoft.AspNetCore.Routing;

namespace Recommender.Pages.Hosting;

/// <summary>Style and script. Their address carries their hash, so that they may be kept for good.</summary>
internal static class PageFiles
{
    private static (byte[] Bytes, string Path) styleFile = Load("coach.css", "");
    private static readonly (byte[] Bytes, string Path) ScriptFile = Load("coach.js", "");

    private static readonly (byte[] Bytes, string Path) MarkFile = Load("mark.svg", "");

    /// <summary>Address of the mark in a browser's tab.</summary>
    public static string Mark => MarkFile.Path;

    /// <summary>Address of the style.</summary>
    public static string Style => styleFile.Path;

    /// <summary>Address of the script.</summary>
    public static string Script => ScriptFile.Path;

    private static readonly (byte[] Bytes, string Path) StopFile = Load("stop.js", "");

    /// <summary>Address of the script that stops long work and keeps what has come.</summary>
    public static string Stop => StopFile.Path;

    /// <summary>Maps them.</summary>
    /// <param name="routes">Routes.</param>
    /// <param name="regions">Region ids: the style shows the questions of the one that is chosen, so that no script is needed.</param>
    public static void Map(IEndpointRouteBuilder routes, IEnumerable<string> regions)
    {
        styleFile = Load("coach.css", string.Concat(regions.Select(r => $".sore:has(option[value=\"{r}\"]:checked) :is(.asked, [data-regions~=\"{r}\"]) {{ display: block; }}\n")));
        Map(routes, styleFile, "text/css; charset=utf-8");
        Map(routes, ScriptFile, "text/javascript; charset=utf-8");
        Map(routes, StopFile, "text/javascript; charset=utf-8");
        Map(routes, MarkFile, "image/svg+xml");
    }

    private static void Map(IEndpointRouteBuilder routes, (byte[] Bytes, string Path) file, string type) =>
        routes.MapGet(file.Path, (HttpContext context) =>
        {
            context.Response.Headers.CacheControl = "public, max-age=31536000, immutable";
            return Results.Bytes(file.Bytes, type);
        });

    private static (byte[] Bytes, string Path) Load(string name, string more)
    {
        using var stream = typeof(PageFiles).Assembly.GetManifestResourceStream("assets/" + name)!;
        using var copy = new MemoryStream();
        stream.CopyTo(copy);
        copy.Write(Encoding.UTF8.GetBytes(more));
        var bytes = copy.ToArray();
        var dot = name.IndexOf('.', StringComparison.Ordinal);
        return (bytes, $"/assets/{name[..dot]}.{Convert.ToHexStringLower(SHA256.HashData(bytes))[..12]}{name[dot..]}");
    }
}
