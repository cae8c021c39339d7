using System.Numerics;

namespace Coldpeel.Craft.Artwork;

/// <summary>The inked part of a plane with free ground all round it: what the survival check measures on.</summary>
internal sealed class InkField
{
    /// <summary>Coverage, 0 to 255; a tint's inside counts as 255, since a screened patch is one patch to the glue.</summary>
    public required byte[] Shade { get; init; }

    /// <summary>1 where ink, else 0.</summary>
    public required byte[] Ink { get; init; }

    public required int Width { get; init; }

    public required int Height { get; init; }

    /// <summary>Where the field's first dot lies in the plane; may be negative.</summary>
    public required int OffsetX { get; init; }

    public required int OffsetY { get; init; }

    /// <summary>Cuts the inked box out of the plane, with <paramref name="margin"/> dots of ground round it.</summary>
    /// <param name="plane">What prints.</param>
    /// <param name="box">Its inked dots.</param>
    /// <param name="margin">Dots of ground.</param>
    /// <param name="tint">Not zero where a tint lies; null for none.</param>
    /// <param name="smooth">The plane before it was cut to whole dots: it tells where within a dot an edge lies. Null for none.</param>
    public static InkField Of(
        WhitePlane plane,
        (int Left, int Top, int Right, int Bottom) box,
        int margin,
        byte[]? tint,
        WhitePlane? smooth = null
    )
    {
        var (width, height) = (box.Right - box.Left + (2 * margin), box.Bottom - box.Top + (2 * margin));
        var shade = new byte[width * height];
        var ink = new byte[width * height];
        Parallel.For(
            box.Top,
            box.Bottom,
            y =>
            {
                var across = box.Right - box.Left;
                var from = (y * plane.Width) + box.Left;
                var at = ((y - box.Top + margin) * width) + margin;
                plane.Coverage.AsSpan(from, across).CopyTo(shade.AsSpan(at));
                if (tint is not null)
                {
                    Fill(shade.AsSpan(at, across), tint.AsSpan(from, across));
                }

                Halve(shade.AsSpan(at, across), ink.AsSpan(at, across));
                if (smooth is not null)
                {
                    Soften(plane, smooth.Coverage, y, box, shade.AsSpan(at, across));
                }
            }
        );

        return new()
        {
            Shade = shade,
            Ink = ink,
            Width = width,
            Height = height,
            OffsetX = box.Left - margin,
            OffsetY = box.Top - margin,
        };
    }

    /// <summary>Gives the dots along an edge their share from before the cut: ink stays at least half, ground less.</summary>
    private static void Soften(
        WhitePlane plane,
        byte[] smooth,
        int y,
        (int Left, int Top, int Right, int Bottom) box,
        Span<byte> shade
    )
    {
        var (w, h, c) = (plane.Width, plane.Height, plane.Coverage);
        for (var x = box.Left; x < box.Right; x++)
        {
            var i = (y * w) + x;
            var edge =
                (x > 0 && c[i - 1] != c[i])
                || (x + 1 < w && c[i + 1] != c[i])
                || (y > 0 && c[i - w] != c[i])
                || (y + 1 < h && c[i + w] != c[i]);
            if (edge && (c[i] is 0 or 255))
            {
                shade[x - box.Left] = c[i] == 0 ? Math.Min(smooth[i], (byte)127) : Math.Max(smooth[i], (byte)128);
            }
        }
    }

    private static void Fill(Span<byte> shade, ReadOnlySpan<byte> tint)
    {
        for (var x = tint.IndexOfAnyExcept((byte)0); x >= 0 && x < tint.Length; x++)
        {
            shade[x] = tint[x] != 0 ? (byte)255 : shade[x];
        }
    }

    /// <summary>Ink is what is at least half covered.</summary>
    private static void Halve(ReadOnlySpan<byte> shade, Span<byte> ink)
    {
        unchecked
        {
            var x = 0;
            for (; x <= shade.Length - Vector<byte>.Count; x += Vector<byte>.Count)
            {
                (new Vector<byte>(shade[x..]) >> 7).CopyTo(ink[x..]);
            }

            for (; x < shade.Length; x++)
            {
                ink[x] = (byte)(shade[x] >> 7);
            }
        }
    }
}
