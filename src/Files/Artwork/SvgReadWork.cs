using System.Xml.Linq;

namespace Coldpeel.Files.Artwork;

/// <summary>How much work an element of an SVG makes for the drawing library before anything is drawn, in seconds of one processor.</summary>
/// <remarks>
/// Figures measured on a small machine of 2026, rounded up. They are no promise of time: they keep a file of some kilobytes from taking minutes, the
/// same file always alike, however busy the computer is.
/// </remarks>
internal sealed class SvgReadWork
{
    /// <summary>Most work of one file.</summary>
    public const double Most = 2.5;

    /// <summary>Steps that one filter may have: each is drawn inside the one after it.</summary>
    public const int MostFilterSteps = 200;

    private const double Element = 45e-6;
    private const double Text = 0.4e-3;
    private const double Letter = 4e-6;
    private const double Pattern = 0.5e-3;
    private const double Pixel = 25e-9;
    private const double Rule = 0.3e-6;
    private const double FilterStep = 15e-6;
    private const double ClipCorner = 0.08e-6;

    private readonly Dictionary<string, XElement> _byId;
    private readonly Func<XElement, long> _pixels;

    /// <param name="byId">Elements by their id.</param>
    /// <param name="pixels">Pixels of the picture that an element carries inside.</param>
    public SvgReadWork(Dictionary<string, XElement> byId, Func<XElement, long> pixels) =>
        (_byId, _pixels) = (byId, pixels);

    /// <summary>Work for the styles of a document: every rule is held against every element.</summary>
    public static double OfStyles(XElement root)
    {
        var rules = root.Descendants().Where(e => e.Name.LocalName == "style").Sum(e => e.Value.Count(c => c == '{'));
        return rules == 0 ? 0 : Rule * rules * root.DescendantsAndSelf().Count();
    }

    /// <summary>Work of one element itself, without its children and what it refers to.</summary>
    public double Of(XElement element) =>
        Element
        + element.Name.LocalName switch
        {
            "text" or "tspan" or "textPath" or "tref" => Text
                + (Letter * element.Nodes().OfType<XText>().Sum(t => (double)t.Value.Length)),
            "image" or "feImage" => Pixel * _pixels(element),
            "pattern" => Pattern,
            "filter" => FilterStep * FilterSteps(element),
            "clipPath" => Clip(element),
            _ => 0,
        };

    /// <summary>How often markers along a path are drawn: at every one of its points.</summary>
    public static double Points(XElement element) =>
        element.Attribute("d") is { } d ? Corners(d.Value)
        : element.Attribute("points") is { } p ? Corners(p.Value)
        : 2;

    /// <summary>Steps of a filter with every input counted anew, as it is built: inputs used twice multiply.</summary>
    private static double FilterSteps(XElement filter)
    {
        var named = new Dictionary<string, double>(StringComparer.Ordinal);
        var (last, sum) = (1.0, 0.0);
        foreach (var step in filter.Elements())
        {
            var inputs = step.Elements().Prepend(step).SelectMany(e => new[] { e.Attribute("in"), e.Attribute("in2") });
            var cost = 1.0;
            foreach (var input in inputs)
            {
                cost += input is null ? 0 : named.GetValueOrDefault(input.Value.Trim(), 1);
            }

            last = Math.Min(step.Attribute("in") is null ? cost + last : cost, 1e12);
            sum += 1;
            if (step.Attribute("result")?.Value.Trim() is { Length: > 0 } name)
            {
                named[name] = last;
            }
        }

        return sum > MostFilterSteps ? 1e12 : last;
    }

    /// <summary>Shapes of a clip are joined one after another: that grows as the square of their corners.</summary>
    private double Clip(XElement clip)
    {
        var shapes = clip.Elements().ToArray();
        if (shapes.Length < 2)
        {
            return 0;
        }

        var corners = shapes.Sum(s => Points(Used(s)) + 4);
        return ClipCorner * corners * corners;
    }

    private XElement Used(XElement element) =>
        element.Attributes().FirstOrDefault(a => a.Name.LocalName == "href")?.Value.Trim() is ['#', .. var id]
        && _byId.TryGetValue(id, out var target)
            ? target
            : element;

    // A point of a path takes at least four characters ("9 9 ").
    private static double Corners(string numbers) => numbers.Length / 4.0;
}
