using Deque.AxeCore.Commons;
using Microsoft.Playwright;

namespace Recommender.Browser.Tests.Hosting;

/// <summary>Axe's rules on a page as it stands.</summary>
internal static class Axe
{
    private static readonly string Script = new BundledAxeScriptProvider().GetScript();

    /// <summary>Fails with what axe found.</summary>
    /// <param name="page">Page.</param>
    /// <param name="scheme">Scheme, told in the failure.</param>
    /// <param name="colourOnly">Whether the rules about colour are asked alone: no other hangs on the scheme, and the others were asked in another one on the same page.</param>
    /// <remarks>Loaded once a page, and only violations are gathered: the lists of what passed are a megabyte a page.</remarks>
    public static async Task FindsNothing(IPage page, string scheme, bool colourOnly = false)
    {
        if (!await page.EvaluateAsync<bool>("typeof axe === 'object'"))
        {
            await page.EvaluateAsync(Script);
        }

        var found = await page.EvaluateAsync<string[]>("""
            colourOnly => axe.run(document, { resultTypes: ['violations'], ...(colourOnly ? { runOnly: { type: 'rule', values: ['color-contrast', 'link-in-text-block'] } } : {}) })
                .then(r => r.violations.map(v => `${v.id}: ${v.help}: ${v.nodes.slice(0, 3).map(n => n.html).join(' | ')}`))
            """, colourOnly);
        Assert.True(found.Length == 0, $"{scheme}:\n" + string.Join('\n', found));
    }
}
