using Coldpeel.Craft.Artwork;

namespace Coldpeel.Files.Artwork;

/// <summary>A white plane as the print file has it: black where toner prints, white where none does.</summary>
public static class PlanePng
{
    /// <summary>The plane as a grey PNG that opens at true size; one bit a dot when every dot is solid or empty.</summary>
    public static byte[] Encode(WhitePlane plane)
    {
        ArgumentNullException.ThrowIfNull(plane);
        var width = plane.Width;
        var coverage = plane.Coverage;
        return coverage.AsSpan().ContainsAnyExcept<byte>(0, 255)
            ? PngFile.Write(
                width,
                plane.Height,
                8,
                PngFile.Colour.Grey,
                [],
                plane.DotsPerMm,
                (y, row) =>
                {
                    var from = coverage.AsSpan((int)((long)y * width), width);
                    for (var x = 0; x < from.Length; x++)
                    {
                        row[x] = (byte)(255 - from[x]);
                    }
                }
            )
            : PngFile.Write(
                width,
                plane.Height,
                1,
                PngFile.Colour.Grey,
                [],
                plane.DotsPerMm,
                (y, row) =>
                {
                    var from = coverage.AsSpan((int)((long)y * width), width);
                    for (var x = 0; x < from.Length; x++)
                    {
                        row[x >> 3] |= from[x] == 0 ? (byte)(0x80 >> (x & 7)) : (byte)0;
                    }
                }
            );
    }
}
