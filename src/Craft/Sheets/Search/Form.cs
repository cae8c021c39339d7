using Coldpeel.Craft.Geometry;

namespace Coldpeel.Craft.Sheets.Search;

/// <summary>A shape at one turn, in micrometres of the search's frame: u along the used length, v across.</summary>
/// <param name="index">Its place in the <see cref="FormBook"/>.</param>
/// <param name="slabs">Cuts the outline grown by half the gap across v: done when first needed, for of many turns few are.</param>
/// <param name="extentU">Length of the true outline's box, rounded up.</param>
/// <param name="extentV">Width of the true outline's box, rounded up.</param>
/// <remarks>The box of the true outline starts at (0, 0), so a place (u, v) is the corner of that box.</remarks>
internal sealed class Form(int index, Func<Slabs> slabs, long extentU, long extentV)
{
    private readonly Lazy<Slabs> _slabs = new(slabs);
    private Reach? _reach;

    public int Index { get; } = index;

    public long ExtentU { get; } = extentU;

    public long ExtentV { get; } = extentV;

    /// <summary>The outline grown by half the gap, cut across v.</summary>
    public Slabs Slabs => _slabs.Value;

    /// <summary>Least v of the grown outline.</summary>
    public double FirstV => Grown.FirstV;

    /// <summary>Greatest v of the grown outline.</summary>
    public double LastV => Grown.LastV;

    /// <summary>Least u of the grown outline.</summary>
    public double FirstU => Grown.FirstU;

    /// <summary>Greatest u of the grown outline.</summary>
    public double LastU => Grown.LastU;

    private Reach Grown =>
        _reach ??= new(
            Slabs.Top[0],
            Slabs.Bottom[^1],
            Slabs.Trapezoids.Min(t => Math.Min(t.LeftTop, t.LeftBottom)),
            Slabs.Trapezoids.Max(t => Math.Max(t.RightTop, t.RightBottom))
        );

    private sealed record Reach(double FirstV, double LastV, double FirstU, double LastU);
}

/// <summary>A form as one way to lay a piece: the piece's own frame starts at the form's corner less the offset.</summary>
internal readonly record struct Way(Form Form, Turn Turn, long OffsetU, long OffsetV)
{
    /// <summary>Whether it is turned by quarters.</summary>
    public bool IsQuarter => Turn.Degrees % 90 == 0;
}
