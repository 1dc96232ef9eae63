namespace Recommender.Browser.Tests.Hosting;

/// <summary>A test in a real browser. It is skipped, with a plain line, only where there is no browser and none can be installed.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class BrowserFactAttribute : FactAttribute
{
    public BrowserFactAttribute() => Skip = Chromium.CannotBeHad;
}

/// <summary>The same for cases.</summary>
[AttributeUsage(AttributeTargets.Method)]
public sealed class BrowserTheoryAttribute : TheoryAttribute
{
    public BrowserTheoryAttribute() => Skip = Chromium.CannotBeHad;
}
