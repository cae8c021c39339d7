using BenchmarkDotNet.Attributes;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Speed;

/// <summary>What looks at every dot of a plane, on a whole A4 sheet and on a chest logo of 90 × 70 mm, at 600 dots an inch.</summary>
public class ArtworkBench
{
    private const double DotsPerMm = 600 / Length.MillimetresPerInch;
    private static readonly ProcessLimits Limits = new(0.35, 0.3, 0.4, 15, 300);
    private WhitePlane _plane = null!;

    /// <summary>Which plane.</summary>
    [Params("logo 90 mm", "A4")]
    public string Plane { get; set; } = "";

    /// <summary>Draws the plane.</summary>
    [GlobalSetup]
    public void Setup() => _plane = Plane == "A4" ? Drawn(210, 297) : Drawn(90, 70);

    /// <summary>Exact distances of all dots.</summary>
    [Benchmark]
    public float[] Distances() => DistanceMap.To(_plane.Coverage, _plane.Width, _plane.Height);

    /// <summary>Connected parts.</summary>
    [Benchmark]
    public int Parts() => Components.Label(_plane.Coverage, _plane.Width, _plane.Height).Parts.Count;

    /// <summary>Widths of strokes and gaps, specks and tints: the whole survival check.</summary>
    [Benchmark]
    public int Survival() => SurvivalCheck.Check(_plane, Limits, null).Length;

    /// <summary>The outline that is laid on sheets.</summary>
    [Benchmark]
    public int Outline() => OutlineTracer.Trace(_plane).Outer.Length;

    // Rings, each with a stroke and a gap of its own: from hair lines to broad ones, so that every kernel has work.
    private static WhitePlane Drawn(double widthMm, double heightMm)
    {
        var (w, h) = ((int)(widthMm * DotsPerMm), (int)(heightMm * DotsPerMm));
        var coverage = new byte[w * h];
        for (var y = 0; y < h; y++)
        {
            for (var x = 0; x < w; x++)
            {
                var (u, v) = (((x / DotsPerMm) % 30) - 15, ((y / DotsPerMm) % 30) - 15);
                var r = Math.Sqrt((u * u) + (v * v));
                coverage[(y * w) + x] = r < 14 && Math.Sin(r * r / 4) > 0 ? (byte)255 : (byte)0;
            }
        }

        return new(w, h, coverage, DotsPerMm);
    }
}
