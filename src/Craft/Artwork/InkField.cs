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
    public static InkField Of(
        WhitePlane plane,
        (int Left, int Top, int Right, int Bottom) box,
        int margin,
        byte[]? tint
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
