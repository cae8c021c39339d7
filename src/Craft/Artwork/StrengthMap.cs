namespace Coldpeel.Craft.Artwork;

/// <summary>The strength of every pixel of a picture, 0 to 255, at the picture's own resolution.</summary>
internal static class StrengthMap
{
    /// <summary>Strengths row by row.</summary>
    public static byte[] Of(Picture picture, Prints prints)
    {
        var map = new byte[picture.Rgba.LongLength / 4];
        // Rows are independent; each worker remembers the colours it has met, since a logo has few.
        Parallel.For(
            0,
            picture.Height,
            () => new ColourMemory(prints),
            (y, _, memory) =>
            {
                unchecked
                {
                    var row = picture.Rgba.AsSpan(y * picture.Width * 4, picture.Width * 4);
                    var to = map.AsSpan(y * picture.Width, picture.Width);
                    for (var x = 0; x < to.Length; x++)
                    {
                        var p = row.Slice(x * 4, 4);
                        to[x] = p[3] == 0 ? (byte)0 : (byte)((memory.Of(p[0], p[1], p[2]) * p[3] / 255) + 0.5f);
                    }
                }

                return memory;
            },
            _ => { }
        );
        if (prints is Prints.Colours colours)
        {
            MixedEdges.Fill(picture, colours, map);
        }

        return map;
    }

    /// <summary>Exact memory of colours: a colour is computed again only after another one took its place.</summary>
    private sealed class ColourMemory(Prints prints)
    {
        private const int Bits = 14;
        private readonly int[] _keys = new int[1 << Bits];
        private readonly float[] _values = new float[1 << Bits];

        public float Of(byte r, byte g, byte b)
        {
            unchecked
            {
                var key = (1 << 24) | (r << 16) | (g << 8) | b;
                var slot = (int)(((uint)key * 2654435761u) >> (32 - Bits));
                if (_keys[slot] != key)
                {
                    _keys[slot] = key;
                    _values[slot] = (float)(PrintsRule.ColourStrength(prints, new(r, g, b)) * 255);
                }

                return _values[slot];
            }
        }
    }
}
