using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Recommender.Answers.Wire;
using Recommender.Domain.Decisions;
using Recommender.Domain.Knowledge;

namespace Recommender.Answers.Learned;

/// <summary>Learned numbers as text: canonical JSON (RFC 8785), whose hash is the version.</summary>
public static class PreferenceText
{
    private const int VersionBytes = 16;

    /// <summary>Text and version of numbers; the same numbers give the same.</summary>
    public static (string Content, string Version) Of(PreferenceNumbers numbers)
    {
        var canonical = CanonicalJson.Of(JsonSerializer.SerializeToUtf8Bytes(numbers, WireJson.Default.PreferenceNumbers));
        return (Encoding.UTF8.GetString(canonical), VersionOf(canonical));
    }

    /// <summary>The preference of a text.</summary>
    /// <exception cref="InvalidDataException">The text is damaged or is not that of the version.</exception>
    public static Preference Read(string content, string version)
    {
        var bytes = Encoding.UTF8.GetBytes(content);
        if (VersionOf(bytes) != version)
        {
            throw new InvalidDataException($"The stored preference {version} does not fit its hash.");
        }

        try
        {
            return new Preference(version, JsonSerializer.Deserialize(bytes, WireJson.Default.PreferenceNumbers) ?? throw new InvalidDataException($"The stored preference {version} is null."));
        }
        catch (JsonException e)
        {
            throw new InvalidDataException($"The stored preference {version} cannot be read.", e);
        }
    }

    private static string VersionOf(byte[] canonical) => Convert.ToHexStringLower(SHA256.HashData(canonical).AsSpan(0, VersionBytes));
}
