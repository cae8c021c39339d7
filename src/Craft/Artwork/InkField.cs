using System.Numerics;

namespace Coldpeel.Craft.Artwork;

/// <summary>The inked part of a plane with free ground all round it: what the survival check measures on.</summary>
internal sealed class InkField
{
    /// <summary>Least shade of ink: half a dot. What is less is ground.</summary>
    public const byte Half = 128;

    /// <summary>Coverage, 0 to 255; a tint's inside counts as 255, since a screened patch is one patch to the glue.</summary>
    public required byte[] Shade { get; init; }

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

                if (smooth is not null)
                {
                    Soften(plane, smooth.Coverage, y, box, shade.AsSpan(at, across));
                }
            }
        );

        return new()
        {
            Shade = shade,
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
        var inner = y > 0 && y + 1 < h ? Math.Min(box.Right, w - 1) - Vector<byte>.Count : -1;
        for (var x = box.Left; x < box.Right; )
        {
            var i = (y * w) + x;
            if (x > 0 && x <= inner)
            {
                Soften(c, smooth, i, w, shade[(x - box.Left)..]);
                x += Vector<byte>.Count;
                continue;
            }

            var edge =
                (x > 0 && c[i - 1] != c[i])
                || (x + 1 < w && c[i + 1] != c[i])
                || (y > 0 && c[i - w] != c[i])
                || (y + 1 < h && c[i + w] != c[i]);
            if (edge && (c[i] is 0 or 255))
            {
                shade[x - box.Left] = c[i] == 0 ? Math.Min(smooth[i], (byte)(Half - 1)) : Math.Max(smooth[i], Half);
            }

            x++;
        }
    }

    /// <summary>The same for as many dots as a vector holds, none of them at the plane's border.</summary>
    private static void Soften(byte[] c, byte[] smooth, int i, int w, Span<byte> shade)
    {
        var here = new Vector<byte>(c, i);
        var alike =
            Vector.Equals(here, new Vector<byte>(c, i - 1))
            & Vector.Equals(here, new Vector<byte>(c, i + 1))
            & Vector.Equals(here, new Vector<byte>(c, i - w))
            & Vector.Equals(here, new Vector<byte>(c, i + w));
        if (Vector.EqualsAll(alike, Vector<byte>.AllBitsSet))
        {
            return;
        }

        var soft = new Vector<byte>(smooth, i);
        var ground = Vector.AndNot(Vector.Equals(here, Vector<byte>.Zero), alike);
        var ink = Vector.AndNot(Vector.Equals(here, Vector<byte>.AllBitsSet), alike);
        var told = Vector.ConditionalSelect(
            ground,
            Vector.Min(soft, new Vector<byte>(Half - 1)),
            Vector.ConditionalSelect(ink, Vector.Max(soft, new Vector<byte>(Half)), new Vector<byte>(shade))
        );
        told.CopyTo(shade);
    }

    private static void Fill(Span<byte> shade, ReadOnlySpan<byte> tint)
    {
        for (var x = tint.IndexOfAnyExcept((byte)0); x >= 0 && x < tint.Length; x++)
        {
            shade[x] = tint[x] != 0 ? (byte)255 : shade[x];
        }
    }
}
