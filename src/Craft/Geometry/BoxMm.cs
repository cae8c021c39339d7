namespace Coldpeel.Craft.Geometry;

/// <summary>An upright rectangle in millimetres, y down.</summary>
public readonly record struct BoxMm(double Left, double Top, double Right, double Bottom)
{
    /// <summary>Width in millimetres; negative when the box is empty.</summary>
    public double Width => Right - Left;

    /// <summary>Height in millimetres; negative when the box is empty.</summary>
    public double Height => Bottom - Top;

    /// <summary>The box that holds nothing: any point added to it becomes the whole box.</summary>
    public static BoxMm Empty =>
        new(double.PositiveInfinity, double.PositiveInfinity, double.NegativeInfinity, double.NegativeInfinity);

    /// <summary>Whether the box holds no point at all.</summary>
    public bool IsEmpty => !(Left <= Right && Top <= Bottom);

    /// <summary>The smallest box around all points.</summary>
    public static BoxMm Around(IEnumerable<PointMm> points)
    {
        var box = Empty;
        foreach (var p in points)
        {
            box = new(
                Math.Min(box.Left, p.X),
                Math.Min(box.Top, p.Y),
                Math.Max(box.Right, p.X),
                Math.Max(box.Bottom, p.Y)
            );
        }

        return box;
    }

    /// <summary>The box grown by <paramref name="mm"/> on every side.</summary>
    public BoxMm Grow(double mm) => new(Left - mm, Top - mm, Right + mm, Bottom + mm);

    /// <summary>Whether the two boxes share at least one point.</summary>
    public bool Meets(BoxMm other) =>
        Left <= other.Right && other.Left <= Right && Top <= other.Bottom && other.Top <= Bottom;

    /// <summary>Whether the other box lies wholly within this one (borders may touch).</summary>
    public bool Contains(BoxMm other) =>
        Left <= other.Left && Top <= other.Top && Right >= other.Right && Bottom >= other.Bottom;
}
