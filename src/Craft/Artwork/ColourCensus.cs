using System.Runtime.InteropServices;

namespace Coldpeel.Craft.Artwork;

/// <summary>A flat colour of a picture and its share of all flat opaque pixels.</summary>
internal readonly record struct FlatColour(Rgb Colour, double Lightness, double Share);

/// <summary>Which flat colours a part of a picture is made of.</summary>
/// <param name="Colours">Most frequent first, at most eight, each further than the merging distance from those before it.</param>
/// <param name="FlatShare">Share of the opaque pixels that look like their neighbours: near 1 for drawings, low for photographs.</param>
/// <param name="Named">Share of the flat pixels that <see cref="Colours"/> accounts for.</param>
internal sealed record ColourCensus(IReadOnlyList<FlatColour> Colours, double FlatShare, double Named)
{
    private const double MergeDeltaE = 12;

    /// <summary>Whether it is a photograph or painting rather than a drawing in flat colours.</summary>
    public bool IsPhotograph => FlatShare < 0.5 || Named < 0.8;

    /// <summary>Counts the opaque pixels within the box, at most about a million of them.</summary>
    public static ColourCensus Of(Picture picture, int left, int top, int right, int bottom)
    {
        var rgba = picture.Rgba;
        var stride = Math.Max(1, (int)Math.Sqrt((double)(right - left) * (bottom - top) / 1e6));
        var bins = new (int Count, long R, long G, long B)[1 << 15];
        var pixels = MemoryMarshal.Cast<byte, uint>(rgba);
        var (opaque, flat) = (0, 0);
        for (var y = top; y < bottom - 1; y += stride)
        {
            for (var x = left; x < right - 1; x += stride)
            {
                var i = ((y * picture.Width) + x) * 4;
                if (rgba[i + 3] < 128)
                {
                    continue;
                }

                opaque++;
                // Most pixels of a drawing are their neighbours' equals.
                var (here, below) = (pixels[i / 4], pixels[(i / 4) + picture.Width]);
                if (
                    (here != pixels[(i / 4) + 1] || here != below)
                    && (Step(rgba, i, i + 4) > 24 || Step(rgba, i, i + (picture.Width * 4)) > 24)
                )
                {
                    continue;
                }

                flat++;
                var key = ((rgba[i] >> 3) << 10) | ((rgba[i + 1] >> 3) << 5) | (rgba[i + 2] >> 3);
                ref var bin = ref bins[key];
                bin = (bin.Count + 1, bin.R + rgba[i], bin.G + rgba[i + 1], bin.B + rgba[i + 2]);
            }
        }

        return Merge(bins, flat, opaque == 0 ? 1 : (double)flat / opaque);
    }

    private static ColourCensus Merge((int Count, long R, long G, long B)[] bins, int flat, double flatShare)
    {
        var colours = new List<FlatColour>();
        var labs = new List<Lab>();
        // Bins of equal count keep the order of their colours.
        foreach (var bin in bins.Where(b => b.Count > 0).OrderByDescending(b => b.Count))
        {
            var colour = new Rgb((byte)(bin.R / bin.Count), (byte)(bin.G / bin.Count), (byte)(bin.B / bin.Count));
            var lab = Srgb.ToLab(colour);
            var near = labs.FindIndex(l => Ciede2000.Difference(l, lab) < MergeDeltaE);
            var share = (double)bin.Count / flat;
            if (near >= 0)
            {
                colours[near] = colours[near] with { Share = colours[near].Share + share };
            }
            else if (colours.Count < 8)
            {
                colours.Add(new(colour, lab.L, share));
                labs.Add(lab);
            }
        }

        colours.Sort((a, b) => b.Share.CompareTo(a.Share));
        return new(colours, flatShare, colours.Sum(c => c.Share));
    }

    private static int Step(byte[] rgba, int i, int j) =>
        Math.Abs(rgba[i] - rgba[j])
        + Math.Abs(rgba[i + 1] - rgba[j + 1])
        + Math.Abs(rgba[i + 2] - rgba[j + 2])
        + Math.Abs(rgba[i + 3] - rgba[j + 3]);
}
