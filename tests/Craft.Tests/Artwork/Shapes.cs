using Coldpeel.Craft.Artwork;

namespace Coldpeel.Craft.Tests.Artwork;

/// <summary>Draws shapes of known size on a plane by counting sample points: shares no code with what is tested.</summary>
internal static class Shapes
{
    public const double Dpm = 600 / 25.4;

    /// <summary>A plane whose dots are covered by the share of 8 × 8 sample points that lie inside; one bit: by the dot's centre.</summary>
    public static WhitePlane Plane(
        double widthMm,
        double heightMm,
        Func<double, double, bool> inside,
        bool oneBit = false
    )
    {
        var (w, h) = ((int)Math.Ceiling(widthMm * Dpm), (int)Math.Ceiling(heightMm * Dpm));
        var coverage = new byte[w * h];
        Parallel.For(
            0,
            h,
            y =>
            {
                for (var x = 0; x < w; x++)
                {
                    if (oneBit)
                    {
                        coverage[(y * w) + x] = inside((x + 0.5) / Dpm, (y + 0.5) / Dpm) ? (byte)255 : (byte)0;
                        continue;
                    }

                    // A dot whose corners and centre agree holds no edge: nothing drawn here is finer than a dot.
                    var centre = inside((x + 0.5) / Dpm, (y + 0.5) / Dpm);
                    if (
                        centre == inside(x / Dpm, y / Dpm)
                        && centre == inside((x + 1) / Dpm, y / Dpm)
                        && centre == inside(x / Dpm, (y + 1) / Dpm)
                        && centre == inside((x + 1) / Dpm, (y + 1) / Dpm)
                    )
                    {
                        coverage[(y * w) + x] = centre ? (byte)255 : (byte)0;
                        continue;
                    }

                    var n = 0;
                    for (var v = 0; v < 8; v++)
                    {
                        for (var u = 0; u < 8; u++)
                        {
                            n += inside((x + ((u + 0.5) / 8)) / Dpm, (y + ((v + 0.5) / 8)) / Dpm) ? 1 : 0;
                        }
                    }

                    coverage[(y * w) + x] = (byte)Math.Round(n * 255 / 64.0);
                }
            }
        );
        return new(w, h, coverage, Dpm);
    }

    /// <summary>A bar with square ends round a centre, turned by degrees.</summary>
    public static Func<double, double, bool> Bar(double cx, double cy, double length, double width, double degrees)
    {
        var (c, s) = (Math.Cos(degrees * Math.PI / 180), Math.Sin(degrees * Math.PI / 180));
        return (x, y) =>
            Math.Abs(((x - cx) * c) + ((y - cy) * s)) <= length / 2
            && Math.Abs(((y - cy) * c) - ((x - cx) * s)) <= width / 2;
    }

    public static Func<double, double, bool> Disc(double cx, double cy, double diameter) =>
        (x, y) => ((x - cx) * (x - cx)) + ((y - cy) * (y - cy)) <= diameter * diameter / 4;

    /// <summary>A polygon by the even-odd rule.</summary>
    public static Func<double, double, bool> Polygon(params (double X, double Y)[] p) =>
        (x, y) =>
        {
            var inside = false;
            for (var (i, j) = (0, p.Length - 1); i < p.Length; j = i++)
            {
                inside ^=
                    p[i].Y > y != p[j].Y > y && x < ((p[j].X - p[i].X) * (y - p[i].Y) / (p[j].Y - p[i].Y)) + p[i].X;
            }

            return inside;
        };

    public static Func<double, double, bool> And(this Func<double, double, bool> a, Func<double, double, bool> b) =>
        (x, y) => a(x, y) && b(x, y);

    public static Func<double, double, bool> Or(this Func<double, double, bool> a, Func<double, double, bool> b) =>
        (x, y) => a(x, y) || b(x, y);

    public static Func<double, double, bool> Less(this Func<double, double, bool> a, Func<double, double, bool> b) =>
        (x, y) => a(x, y) && !b(x, y);
}
