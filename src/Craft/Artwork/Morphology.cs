namespace Coldpeel.Craft.Artwork;

/// <summary>Growing and shrinking marks by a disc, exactly: a dot belongs to the disc when its centre lies within the radius.</summary>
/// <remarks>
/// By thresholds on exact squared distances, so the cost does not depend on how the marks lie and hardly on the radius. Serra, Image
/// Analysis and Mathematical Morphology, 1982, for the terms. What lies outside the grid is neither marked nor free: it never acts.
/// </remarks>
public static class Morphology
{
    /// <summary>Marks every dot within <paramref name="radius"/> dots of a marked one.</summary>
    /// <param name="marks">Row by row, 0 or 1.</param>
    /// <param name="width">Dots across.</param>
    /// <param name="height">Dots down.</param>
    /// <param name="radius">0 to 180 dots.</param>
    public static byte[] Grow(byte[] marks, int width, int height, double radius) =>
        Near(marks, width, height, radius, to: 1, near: 1);

    /// <summary>Keeps of the marks only dots farther than <paramref name="radius"/> dots from every unmarked one.</summary>
    /// <inheritdoc cref="Grow"/>
    public static byte[] Shrink(byte[] marks, int width, int height, double radius) =>
        Near(marks, width, height, radius, to: 0, near: 0);

    /// <summary>What a disc of the radius can cover without leaving the marks: thin strokes and specks go.</summary>
    /// <inheritdoc cref="Grow"/>
    public static byte[] Open(byte[] marks, int width, int height, double radius) =>
        Grow(Shrink(marks, width, height, radius), width, height, radius);

    /// <summary>The marks and what no disc of the radius can reach between them: narrow gaps and pinholes close.</summary>
    /// <inheritdoc cref="Grow"/>
    public static byte[] Close(byte[] marks, int width, int height, double radius) =>
        Shrink(Grow(marks, width, height, radius), width, height, radius);

    private static byte[] Near(byte[] marks, int width, int height, double radius, byte to, byte near)
    {
        ArgumentNullException.ThrowIfNull(marks);
        var reach = (int)Math.Ceiling(radius);
        if (radius is < 0 or > NearDistances.Farthest || marks.Length != (long)width * height)
        {
            throw new ArgumentException($"A radius of {radius} on {marks.Length} dots of {width} × {height}.");
        }

        var squares = new ushort[marks.Length];
        NearDistances.Squared(marks, width, height, Math.Max(1, reach), to, squares);
        var most = radius * radius;
        var result = new byte[marks.Length];
        Parallel.For(
            0,
            height,
            y =>
            {
                for (var i = y * width; i < (y + 1) * width; i++)
                {
                    result[i] = squares[i] <= most ? near : (byte)(1 - near);
                }
            }
        );
        return result;
    }
}
