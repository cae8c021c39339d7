namespace Coldpeel.Craft.Geometry;

/// <summary>A point in millimetres: x runs right, y runs down, as on paper seen from the print side before mirroring.</summary>
public readonly record struct PointMm(double X, double Y)
{
    /// <summary>The sum, by coordinate.</summary>
    public static PointMm operator +(PointMm a, PointMm b) => new(a.X + b.X, a.Y + b.Y);

    /// <summary>The difference, by coordinate.</summary>
    public static PointMm operator -(PointMm a, PointMm b) => new(a.X - b.X, a.Y - b.Y);

    /// <summary>The distance to another point, in millimetres.</summary>
    public double DistanceTo(PointMm other) =>
        Math.Sqrt(((X - other.X) * (X - other.X)) + ((Y - other.Y) * (Y - other.Y)));
}
