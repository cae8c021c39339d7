using BitMiracle.LibTiff.Classic;

namespace Coldpeel.Files.Artwork;

/// <summary>Pixels of a TIFF in strips: grey, palette, RGB or printing inks of 1 to 16 bits, with or without alpha.</summary>
internal static class TiffPixels
{
    /// <summary>The pixels, or null when the page is packed in another way or cut short.</summary>
    public static byte[]? Plain(Tiff tiff, TiffPage page)
    {
        var colour = (Photometric)First(tiff, TiffTag.PHOTOMETRIC, (int)Photometric.MINISBLACK);
        var inks =
            colour is Photometric.RGB ? 3
            : colour is Photometric.SEPARATED ? 4
            : 1;
        var known =
            colour
            is Photometric.MINISWHITE
                or Photometric.MINISBLACK
                or Photometric.RGB
                or Photometric.PALETTE
                or Photometric.SEPARATED;
        var map = colour == Photometric.PALETTE ? tiff.GetField(TiffTag.COLORMAP) : null;
        if (
            !known
            || tiff.IsTiled()
            || page.Samples < inks
            || (colour == Photometric.PALETTE && (map is null || page.Bits > 8))
        )
        {
            return null;
        }

        var separate = First(tiff, TiffTag.PLANARCONFIG, 1) == (int)PlanarConfig.SEPARATE;
        var alpha = page.Samples > inks ? Alpha(tiff) : ExtraSample.UNSPECIFIED;
        var line = new byte[tiff.ScanlineSize()];
        var samples = new ushort[page.Samples * page.Width];
        var rgba = GC.AllocateUninitializedArray<byte>(4 * page.Width * page.Height);
        var palette = map is null
            ? null
            : (ushort[][])[map[0].ToUShortArray(), map[1].ToUShortArray(), map[2].ToUShortArray()];
        for (var y = 0; y < page.Height; y++)
        {
            for (short plane = 0; plane < (separate ? page.Samples : 1); plane++)
            {
                if (!tiff.ReadScanline(line, y, plane))
                {
                    return null;
                }

                Unpack(line, samples, page, separate ? plane : 0, separate ? page.Samples : 1);
            }

            for (var x = 0; x < page.Width; x++)
            {
                var s = samples.AsSpan(x * page.Samples, page.Samples);
                var a = alpha == ExtraSample.UNSPECIFIED ? 255 : To8(s[inks]);
                var (r, g, b) = Light(colour, s, palette, page.Bits);
                Put(rgba, (y * page.Width) + x, r, g, b, a, alpha == ExtraSample.ASSOCALPHA);
            }
        }

        return rgba;
    }

    /// <summary>Sets a pixel; a colour that was multiplied by its alpha is divided again.</summary>
    public static void Put(byte[] rgba, int at, int r, int g, int b, int a, bool multiplied)
    {
        if (multiplied && a is > 0 and < 255)
        {
            (r, g, b) = (Straight(r, a), Straight(g, a), Straight(b, a));
        }

        var to = rgba.AsSpan(4 * at, 4);
        (to[0], to[1], to[2], to[3]) = ((byte)r, (byte)g, (byte)b, (byte)a);
    }

    private static int Straight(int value, int alpha) => Math.Min(255, ((value * 255) + (alpha / 2)) / alpha);

    /// <summary>Samples of a line to the full 16 bits each; those of a palette stay numbers of colours.</summary>
    private static void Unpack(byte[] line, ushort[] samples, TiffPage page, int first, int step)
    {
        var count = step == 1 ? samples.Length : page.Width;
        for (var i = 0; i < count; i++)
        {
            // The library has brought 16-bit samples into this machine's order.
            var value = page.Bits switch
            {
                16 => BitConverter.ToUInt16(line, 2 * i),
                8 => line[i] * 257,
                4 => ((line[i >> 1] >> (4 - (4 * (i & 1)))) & 15) * 0x1111,
                2 => ((line[i >> 2] >> (6 - (2 * (i & 3)))) & 3) * 0x5555,
                _ => ((line[i >> 3] >> (7 - (i & 7))) & 1) * 0xFFFF,
            };
            samples[first + (i * step)] = (ushort)value;
        }
    }

    private static (int R, int G, int B) Light(Photometric colour, Span<ushort> s, ushort[][]? palette, int bits)
    {
        switch (colour)
        {
            case Photometric.RGB:
                return (To8(s[0]), To8(s[1]), To8(s[2]));
            case Photometric.SEPARATED:
                var paper = 65535 - s[3];
                return (Under(s[0], paper), Under(s[1], paper), Under(s[2], paper));
            case Photometric.PALETTE:
                var index = s[0] >> (16 - bits);
                return (To8(palette![0][index]), To8(palette[1][index]), To8(palette[2][index]));
            default:
                var grey = To8(colour == Photometric.MINISWHITE ? (ushort)(65535 - s[0]) : s[0]);
                return (grey, grey, grey);
        }
    }

    /// <summary>Light left by an ink over what black leaves: the rule of thumb where no profile says better.</summary>
    private static int Under(ushort ink, int paper) => To8((ushort)((((65535L - ink) * paper) + 32767) / 65535));

    private static int To8(ushort value) => ((value * 255) + 32767) / 65535;

    private static ExtraSample Alpha(Tiff tiff) =>
        tiff.GetField(TiffTag.EXTRASAMPLES) is [_, { Value: ExtraSample[] and [var first, ..] }, ..]
            ? first
            : ExtraSample.UNSPECIFIED;

    private static int First(Tiff tiff, TiffTag tag, int otherwise) =>
        tiff.GetFieldDefaulted(tag) is [var value, ..] ? value.ToInt() : otherwise;
}
