using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Rendering;

namespace Recommender.Pages.Words;

/// <summary>Text in a drawing, centred on a point. A component, since a page's own text element is taken for another thing.</summary>
public sealed class SvgText : ComponentBase
{
    /// <summary>Middle, a length in percent.</summary>
    [Parameter, EditorRequired]
    public string X { get; set; } = "";

    /// <summary>Baseline, pixels.</summary>
    [Parameter, EditorRequired]
    public string Y { get; set; } = "";

    /// <summary>Class, or null.</summary>
    [Parameter]
    public string? Class { get; set; }

    /// <summary>What it says.</summary>
    [Parameter, EditorRequired]
    public string Say { get; set; } = "";

    /// <inheritdoc/>
    protected override void BuildRenderTree(RenderTreeBuilder builder)
    {
        builder.OpenElement(0, "text");
        builder.AddAttribute(1, "x", X);
        builder.AddAttribute(2, "y", Y);
        builder.AddAttribute(3, "text-anchor", "middle");
        builder.AddAttribute(4, "class", Class);
        builder.AddContent(5, Say);
        builder.CloseElement();
    }
}
