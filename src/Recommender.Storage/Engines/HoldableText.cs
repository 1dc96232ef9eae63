using System.Data;
using System.Text;
using Dapper;

namespace Recommender.Storage.Engines;

/// <summary>
/// Text as both engines can hold it. What asks for a record may hold anything, such as U+0000 in an address, which PostgreSQL refuses with an error; it becomes
/// U+FFFD, as half a surrogate pair does, so that both engines find nothing. What is stored was checked before and holds no such character.
/// </summary>
internal sealed class HoldableText : SqlMapper.TypeHandler<string>
{
    private const char Replacement = '\uFFFD';

    /// <summary>Has all statements of this program send text so.</summary>
    public static void Register()
    {
        SqlMapper.RemoveTypeMap(typeof(string));
        SqlMapper.AddTypeHandler(new HoldableText());
    }

    /// <summary>The text with what cannot be held replaced.</summary>
    public static string Of(string text) => text.Any(c => c == '\0' || char.IsSurrogate(c))
        ? Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(text)).Replace('\0', Replacement)
        : text;

    /// <inheritdoc/>
    public override void SetValue(IDbDataParameter parameter, string? value)
    {
        parameter.DbType = DbType.String;
        parameter.Value = value is null ? DBNull.Value : Of(value);
    }

    /// <inheritdoc/>
    public override string? Parse(object value) => value as string;
}
