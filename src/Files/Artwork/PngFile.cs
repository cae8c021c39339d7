using System.Buffers.Binary;
using System.IO.Compression;

namespace Coldpeel.Files.Artwork;

/// <summary>Writes a PNG (ISO/IEC 15948) with a density, the same bytes every time.</summary>
internal static class PngFile
{
    /// <summary>Colour types of IHDR that we write.</summary>
    public enum Colour : byte
    {
        Grey = 0,
        Rgb = 2,
        Palette = 3,
    }

    private static readonly uint[] Table = MakeTable();

    /// <summary>A PNG of packed rows.</summary>
    /// <param name="width">Pixels across.</param>
    /// <param name="height">Pixels down.</param>
    /// <param name="bits">Bits a sample: 1 or 8.</param>
    /// <param name="colour">Grey, a palette, or R, G, B.</param>
    /// <param name="palette">R, G, B of every index; empty for the others.</param>
    /// <param name="perMm">Pixels in a millimetre.</param>
    /// <param name="fillRow">Writes row y into the packed row.</param>
    public static byte[] Write(
        int width,
        int height,
        int bits,
        Colour colour,
        ReadOnlySpan<byte> palette,
        double perMm,
        Action<int, byte[]> fillRow
    )
    {
        using var file = new MemoryStream();
        file.Write([0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A]);
        var header = new byte[13];
        BinaryPrimitives.WriteInt32BigEndian(header, width);
        BinaryPrimitives.WriteInt32BigEndian(header.AsSpan(4), height);
        (header[8], header[9]) = ((byte)bits, (byte)colour);
        Chunk(file, "IHDR"u8, header);
        var density = new byte[9];
        BinaryPrimitives.WriteInt32BigEndian(density, (int)Math.Round(perMm * 1000));
        BinaryPrimitives.WriteInt32BigEndian(density.AsSpan(4), (int)Math.Round(perMm * 1000));
        density[8] = 1; // a metre is the unit
        Chunk(file, "pHYs"u8, density);
        if (colour == Colour.Palette)
        {
            Chunk(file, "PLTE"u8, palette);
        }

        using var packed = new MemoryStream();
        using (var zip = new ZLibStream(packed, CompressionLevel.Optimal, leaveOpen: true))
        {
            var row = new byte[((width * (long)bits * (colour == Colour.Rgb ? 3 : 1)) + 7) / 8];
            for (var y = 0; y < height; y++)
            {
                Array.Clear(row);
                fillRow(y, row);
                zip.WriteByte(0); // no filter: planes are flat, and it keeps the writer plain
                zip.Write(row);
            }
        }

        Chunk(file, "IDAT"u8, packed.GetBuffer().AsSpan(0, (int)packed.Length));
        Chunk(file, "IEND"u8, []);
        return file.ToArray();
    }

    private static void Chunk(MemoryStream file, ReadOnlySpan<byte> kind, ReadOnlySpan<byte> body)
    {
        Span<byte> number = stackalloc byte[4];
        BinaryPrimitives.WriteInt32BigEndian(number, body.Length);
        file.Write(number);
        file.Write(kind);
        file.Write(body);
        BinaryPrimitives.WriteUInt32BigEndian(number, ~Crc(body, Crc(kind, uint.MaxValue)));
        file.Write(number);
    }

    private static uint Crc(ReadOnlySpan<byte> bytes, uint crc)
    {
        foreach (var b in bytes)
        {
            crc = Table[(crc ^ b) & 0xFF] ^ (crc >> 8);
        }

        return crc;
    }

    private static uint[] MakeTable()
    {
        var table = new uint[256];
        for (var n = 0u; n < 256; n++)
        {
            var c = n;
            for (var k = 0; k < 8; k++)
            {
                c = (c & 1) == 0 ? c >> 1 : 0xEDB88320 ^ (c >> 1);
            }

            table[n] = c;
        }

        return table;
    }
}
