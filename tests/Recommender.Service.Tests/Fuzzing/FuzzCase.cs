using System.Text;

namespace Recommender.Service.Tests.Fuzzing;

/// <summary>How a request was made.</summary>
public enum Making
{
    /// <summary>As the document allows it.</summary>
    Valid,

    /// <summary>As the document allows it, with one to three places spoiled.</summary>
    Nearly,

    /// <summary>Broken as text, as an HTTP message, or sent where it does not belong.</summary>
    Broken,
}

/// <summary>One request.</summary>
/// <param name="Operation">Operation that it is made for.</param>
/// <param name="Making">How it was made.</param>
/// <param name="Method">Method that it is sent with.</param>
/// <param name="Target">Path and query as they are sent.</param>
/// <param name="Headers">Headers beside the content's.</param>
/// <param name="ContentType">Content type, or null for none.</param>
/// <param name="ContentEncoding">Content encoding, or null for none.</param>
/// <param name="Body">Body, or null for none.</param>
/// <param name="Elsewhere">Whether path or method were changed, so that another operation or none may answer.</param>
/// <param name="MustRefuse">Whether nothing but a refusal (4xx) is right.</param>
public sealed record FuzzCase(
    Operation Operation, Making Making, string Method, string Target, IReadOnlyList<(string Name, string Value)> Headers,
    string? ContentType, string? ContentEncoding, byte[]? Body, bool Elsewhere, bool MustRefuse)
{
    /// <summary>The request in a form that can be read and sent again.</summary>
    public override string ToString()
    {
        var text = new StringBuilder().Append(Operation.Id).Append(", ").Append(Making).Append(": ").Append(Method).Append(' ').Append(Target).Append('\n');
        foreach (var (name, value) in Headers)
        {
            text.Append(name).Append(": ").Append(value).Append('\n');
        }

        text.Append("content type ").Append(ContentType ?? "none").Append(", encoding ").Append(ContentEncoding ?? "none").Append('\n');
        if (Body is not null)
        {
            var body = Encoding.UTF8.GetString(Body);
            text.Append(Body.Length).Append(" bytes: ").Append(body.Length > 3000 ? body[..3000] + " ..." : body);
        }

        return text.ToString();
    }
}
