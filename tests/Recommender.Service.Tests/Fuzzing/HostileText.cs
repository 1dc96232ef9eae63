namespace Recommender.Service.Tests.Fuzzing;

/// <summary>
/// Text that has hurt other programs: injection into SQL, pages, tables, logs and headers; paths out of a folder; oddities of Unicode. Each carries the mark, so that
/// where it must never come out (the log) it can be looked for. Kinds: OWASP's lists of injection, path traversal and CSV formulas; Unicode Technical Report 36 for the oddities.
/// </summary>
public static class HostileText
{
    /// <summary>Stands in every text.</summary>
    public const string Mark = "zqxmark";

    public static readonly string[] All =
    [
        $"'; DROP TABLE decisions; -- {Mark}", $"\" OR \"1\"=\"1 {Mark}", $"{Mark}' UNION SELECT personal FROM decisions --", $"%' OR 1=1 {Mark}", $"{Mark}\\", $"{Mark}%_[]^",
        $"<script>alert('{Mark}')</script>", $"\"><img src=x onerror=alert({Mark})>", $"{Mark}</textarea><svg/onload=alert(1)>", $"javascript:alert('{Mark}')", $"{{{{7*7}}}}{Mark}", $"${{7*7}}{Mark}", $"@{{{Mark}}}",
        $"=HYPERLINK(\"http://example.invalid/{Mark}\")", $"@SUM(1+1){Mark}", $"+1+cmd|' /C calc'!A0 {Mark}", $"-2+3{Mark}", $"\t={Mark}", $"\r={Mark}",
        $"{Mark}\r\ninfo: Recommender[0] all is well", $"{Mark}\nSet-Cookie: a=b", $"{Mark}\r\n\r\nHTTP/1.1 200 OK", $"{Mark}\u001b[2J\u001b[31m", $"{Mark}\u0008\u0008\u007f",
        $"../../../../etc/passwd{Mark}", $"..\\..\\{Mark}", $"/etc/passwd\0{Mark}", $"%2e%2e%2f{Mark}", $"C:\\{Mark}", $"file:///{Mark}", $"CON{Mark}",
        $"{Mark}\u202egnp.exe", $"\u200f{Mark}\u200e", $"{Mark}e\u0301\u0301\u0301\u0301\u0301\u0301", $"\ufeff{Mark}", $"{Mark}\u2028\u2029", $"\u00a0{Mark}\u3000", $"{Mark}\U0001f468\u200d\U0001f469\u200d\U0001f467", $"{Mark}\ufffe\uffff",
        $"İı{Mark}ſK", $"ﷺ{Mark}", $"{Mark}\0", $"\u0000\u0001{Mark}", $"{Mark}\ud83d\ude00\U0010ffff", $"Ｎ{Mark}．．／", $"{{0}}{{1}}{Mark}%s%n%x",
    ];

    /// <summary>Values in place of a JSON value, as they stand in the text of a body.</summary>
    public static readonly string[] Values =
    [
        "1e400", "-1e400", "-0", "-0.0", "1e-400", "0.1e1", "99999999999999999999999999999999", "-9223372036854775809", "2147483648", "1.7976931348623157e308", "5e-324", "79228162514264337593543950336",
        "0.000000000000000000000000000000000000001", "3.0", "3.00000000000000000000000000001", "true", "false", "null", "{}", "[]", "[[]]", "[null]", "{\"\":null}", "\"\"", "\" \"", "\"NaN\"", "\"1\"", "\"null\"",
        "\"\\ud800\"", "\"\\udc00\\ud800\"", "\"\\u0000\"", "\"a\\u0000b\"", "\"\\ud83d\\ude00\"", "\"__proto__\"", "{\"$ref\":\"#\"}", "{\"$type\":\"System.Object\"}", "[0,\"a\",{},[],null,true]",
    ];

    /// <summary>What no JSON reader may take for a value.</summary>
    public static readonly string[] NotJson =
    [
        "NaN", "Infinity", "-Infinity", "undefined", "01", "+1", ".5", "1.", "0x10", "1e", "'a'", "\"\n\"", "\"\\x41\"", "\"\\ud80\"", "nul", "True", "/**/1", "1 1", "\"a", "[1,]", "{\"a\":1,}", "{a:1}", "{1:1}", "[", "{", "]", "\u0000", "--1",
    ];
}
