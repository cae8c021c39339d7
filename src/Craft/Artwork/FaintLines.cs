namespace Coldpeel.Craft.Artwork;

/// <summary>Finds lines and dots so fine that they leave no dot half covered.</summary>
internal static class FaintLines
{
    private const byte Faintest = 26;

    /// <summary>One of them.</summary>
    /// <param name="Width">Area by length, in dots.</param>
    /// <param name="Diameter">Of a dot of the same area, in dots.</param>
    /// <param name="Box">Its dots' box.</param>
    /// <param name="Dots">Indices of its dots.</param>
    internal readonly record struct Line(double Width, double Diameter, Component Box, ReadOnlyMemory<int> Dots);

    /// <summary>All of them.</summary>
    public static List<Line> Find(InkField field)
    {
        var (w, h) = (field.Width, field.Height);
        byte[]? faint = null;
        var end = field.Shade.Length - (2 * w) - 2;
        for (var i = (2 * w) + 2; i < end; i++)
        {
            // Of the dots less than half covered nearly all are the edge of a shape: those are told by their neighbours.
            var next = field.Shade.AsSpan(i, end - i).IndexOfAnyInRange(Faintest, (byte)127);
            if (next < 0)
            {
                break;
            }

            i += next;
            if (!Touches(field, i) && !NearInk(field, i))
            {
                (faint ??= new byte[field.Shade.Length])[i] = 1;
            }
        }

        if (faint is null)
        {
            return [];
        }

        var parts = Components.Label(faint, w, h);
        var sums = new double[parts.Parts.Count];
        var dots = parts.Parts.Select(p => new List<int>(p.Area)).ToArray();
        foreach (var (y, left, right, part) in parts.Runs())
        {
            for (var x = left; x < right; x++)
            {
                sums[part] += field.Shade[(y * w) + x] / 255.0;
                dots[part].Add((y * w) + x);
            }
        }

        return
        [
            .. parts.Parts.Select(
                (p, k) =>
                {
                    var length = Math.Sqrt(Math.Pow(p.Right - p.Left, 2) + Math.Pow(p.Bottom - p.Top, 2));
                    var width = sums[k] / Math.Max(1, length - 1);
                    return new Line(width, Math.Sqrt(4 * sums[k] / Math.PI), p, dots[k].ToArray());
                }
            ),
        ];
    }

    private static bool Touches(InkField field, int i) =>
        (field.Shade[i - 1] | field.Shade[i + 1] | field.Shade[i - field.Width] | field.Shade[i + field.Width])
        >= InkField.Half;

    private static bool NearInk(InkField field, int i)
    {
        for (var v = -2; v <= 2; v++)
        {
            if (field.Shade.AsSpan(i + (v * field.Width) - 2, 5).IndexOfAnyInRange(InkField.Half, byte.MaxValue) >= 0)
            {
                return true;
            }
        }

        return false;
    }
}
