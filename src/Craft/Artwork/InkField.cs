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
        for (var y = box.Top; y < box.Bottom; y++)
        {
            var from = plane.Coverage.AsSpan((y * plane.Width) + box.Left, box.Right - box.Left);
            var at = ((y - box.Top + margin) * width) + margin;
            from.CopyTo(shade.AsSpan(at));
            var inTint = tint is null ? default : tint.AsSpan((y * plane.Width) + box.Left, from.Length);
            for (var x = 0; x < from.Length; x++)
            {
                if (!inTint.IsEmpty && inTint[x] != 0)
                {
                    shade[at + x] = 255;
                }

                ink[at + x] = shade[at + x] >= 128 ? (byte)1 : (byte)0;
            }
        }

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
}
