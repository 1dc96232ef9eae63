using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.RegularExpressions;
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Logging;
using Recommender.Api.Tests.Hosting;

namespace Recommender.Api.Tests.Pages;

/// <summary>Forms that no browser sends are told to be unreadable (RFC 9110, 15.5.1), whoever sends them, and are no fault of the service.</summary>
public sealed class BrokenFormTests : IAsyncLifetime
{
    private readonly LogLines lines = new();
    private readonly ApiHost api;

    public BrokenFormTests() => api = new ApiHost { Replace = services => services.AddLogging(logging => logging.AddProvider(lines)) };

    public Task InitializeAsync() => Task.CompletedTask;

    public async Task DisposeAsync() => await api.DisposeAsync();

    [Theory]
    // RFC 2046, 5.1.1: a multipart body ends with its closing delimiter.
    [InlineData("multipart/form-data; boundary=b", "--b\r\nContent-Disposition: form-data; name=\"key\"\r\n\r\nabc")]
    [InlineData("multipart/form-data; boundary=b", "--b\r\nno header\r\n\r\nabc\r\n--b--\r\n")]
    [InlineData("multipart/form-data; boundary=b", "--b\r\nContent-Disposition: form-data; name=\"key\"\r\nContent-Type: text/plain; charset=utf-7\r\n\r\nabc\r\n--b--\r\n")]
    [InlineData("multipart/form-data", "--b\r\nContent-Disposition: form-data; name=\"key\"\r\n\r\nabc\r\n--b--\r\n")]
    [InlineData("application/x-www-form-urlencoded; charset=utf-7", "key=abc")]
    [InlineData("text/plain", "key=abc")]
    public async Task A_form_that_cannot_be_read_is_told_so(string contentType, string body)
    {
        foreach (var path in new[] { "/sign-in", "/versions/upload" })
        {
            using var content = new ByteArrayContent(Encoding.ASCII.GetBytes(body));
            content.Headers.ContentType = MediaTypeHeaderValue.Parse(contentType);
            using var response = await api.Send(path, content, ("Accept", "text/html"));

            var page = await response.Content.ReadAsStringAsync();
            Assert.Equal((path, 400, "text/html"), (path, (int)response.StatusCode, response.Content.Headers.ContentType?.MediaType));
            Assert.Contains("cannot be read", page);
        }

        Assert.Empty(lines.Errors);
    }

    /// <summary>RFC 9110, 5.5: a header field holds printable ASCII; what stands in an address goes on as it came, escaped.</summary>
    [Fact]
    public async Task What_a_sheets_address_holds_goes_on_escaped()
    {
        var forms = new FormClient(api);
        var (_, sheet, _) = await forms.Post("/squad/sheet", "/squad", [("all", "all")]);
        var with = sheet!.Replace("?d=", "?d=%C3%A9,", StringComparison.Ordinal);
        var trades = Regex.Matches(WebUtility.HtmlDecode(await forms.Get(with)), "name=\"trade\" value=\"([^\"]+)\"").Select(m => ("trade", m.Groups[1].Value)).ToList();
        Assert.NotEmpty(trades);

        var (status, location, _) = await forms.Post("/squad/sheet/trade" + with["/squad/sheet".Length..], with, trades);

        Assert.Equal(HttpStatusCode.SeeOther, status);
        Assert.StartsWith("/squad/sheet?d=%C3%A9,", location);
    }

    private sealed class LogLines : ILoggerProvider, ILogger
    {
        public System.Collections.Concurrent.ConcurrentQueue<string> Errors { get; } = new();

        public ILogger CreateLogger(string categoryName) => this;

        public IDisposable? BeginScope<TState>(TState state) where TState : notnull => null;

        public bool IsEnabled(LogLevel logLevel) => logLevel >= LogLevel.Warning;

        public void Log<TState>(LogLevel logLevel, EventId eventId, TState state, Exception? exception, Func<TState, Exception?, string> formatter)
        {
            if (logLevel >= LogLevel.Error || exception is not null)
            {
                Errors.Enqueue($"{formatter(state, exception)} {exception}");
            }
        }

        public void Dispose()
        {
            // Nothing is held.
        }
    }
}
