using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Artwork;

/// <summary>
/// A line screen of clustered dots whose every state carries glue: light tints are free dots no smaller than the process's smallest,
/// darker ones join them by whole bridges into lines, the darkest are lines whose gaps stay open.
/// </summary>
/// <param name="PeriodMm">From line to line, and from dot to dot along a line.</param>
/// <param name="AngleDeg">Direction of the lines, clockwise from across.</param>
/// <param name="DotMm">Diameter of the smallest dot.</param>
/// <param name="LineMm">Width of a bridge between two dots of a line.</param>
/// <param name="GapMm">Narrowest gap that stays open.</param>
/// <remarks>
/// The pattern is nested: a darker tint never takes a dot of toner away. Coverage over whole cells is exact by construction: every
/// part of a cell gets as its threshold the share of the cell that prints before it. A spot that a border cuts below the smallest dot
/// is dropped or made up to it, whichever keeps the sum of toner nearer (<see cref="Clusters"/>).
/// </remarks>
public sealed record LineScreen(double PeriodMm, double AngleDeg, double DotMm, double LineMm, double GapMm)
{
    /// <summary>The angle at which the eye sees a regular pattern least (the oblique effect; common practice for one ink).</summary>
    public const double UsualAngleDeg = 45;

    /// <summary>The screen of a process: as fine as its smallest dot and narrowest gap allow.</summary>
    /// <param name="limits">What the process carries.</param>
    /// <param name="dotsPerMm">Dots in a millimetre of the printer: the coarser they are, the more room rounded edges need.</param>
    /// <remarks>
    /// The finest period at which two smallest dots stand an open gap apart, half-tone lines still stand an open gap apart, and the
    /// lightest tint that the process is said to carry is not lighter than what the smallest dot makes.
    /// </remarks>
    public static LineScreen For(ProcessLimits limits, double dotsPerMm)
    {
        ArgumentNullException.ThrowIfNull(limits);
        var dot = Math.Max(limits.DotMm, limits.LineMm);
        var tint = Math.Clamp(limits.TintPercent / 100, 0.02, 1);
        var (smallest, gap) = (
            dot + (ScreenCell.DotRoom / Need.Positive(dotsPerMm)),
            limits.GapMm + (ScreenCell.EdgeRoom / dotsPerMm)
        );
        var period = Math.Max(Math.Max(smallest, gap) + gap, smallest * Math.Sqrt(Math.PI / 4 / tint));
        return new(Math.Ceiling((period * 20) - 1e-9) / 20, UsualAngleDeg, dot, limits.LineMm, limits.GapMm);
    }

    /// <summary>Lines an inch.</summary>
    public double LinesPerInch => Length.MillimetresPerInch / PeriodMm;

    /// <summary>The lightest and the darkest tint that it prints true, as shares of solid.</summary>
    /// <param name="dotsPerMm">Dots in a millimetre of the printer.</param>
    public ToneRange Range(double dotsPerMm)
    {
        var cell = new ScreenCell(this, dotsPerMm);
        return new(cell.Lightest, cell.Darkest);
    }

    /// <summary>The plane with its tints screened, one bit a dot; what is no tint is cut at one half.</summary>
    /// <param name="grey">A plane with tints, left as it is.</param>
    /// <param name="sourceDpi">As for <see cref="SurvivalCheck.Check"/>: how wide a soft edge may be.</param>
    /// <param name="curve">What asked tints must be asked as, so that they come out as meant; null for as they are.</param>
    /// <remarks>
    /// Tints lighter than half the lightest stay empty, from there up they print as the lightest; tints from halfway between the darkest
    /// and solid print solid, below that as the darkest.
    /// </remarks>
    public Screened Apply(WhitePlane grey, double? sourceDpi = null, ToneCurve? curve = null)
    {
        ArgumentNullException.ThrowIfNull(grey);
        var work = TintedPlane.Of(grey, sourceDpi, curve, DotMm, GapMm, PeriodMm);
        if (work.Mask is null)
        {
            return new(work.Cut, false);
        }

        var cell = new ScreenCell(this, grey.DotsPerMm);
        var means = work.Means(Math.Max(1, (int)(PeriodMm * grey.DotsPerMm / 4)));
        var (sin, cos) = Math.SinCos(AngleDeg * Math.PI / 180);
        // What a solid leaves no room for does not print at all, rather than cut.
        double? Around(double a, double b, double room)
        {
            var (x, y) = ((a * cos) - (b * sin), (a * sin) + (b * cos));
            var tone = means.At(x, y);
            return room > 0 && SolidInTints.IsLight(tone) && !work.IsFree(x, y, room) ? 0 : tone;
        }

        var (width, to, mask) = (grey.Width, work.Cut.Coverage, work.Mask);
        Parallel.For(
            0,
            grey.Height,
            y =>
            {
                for (var x = 0; x < width; x++)
                {
                    var i = (y * width) + x;
                    if (mask[i] == 0)
                    {
                        continue;
                    }

                    var (px, py) = (x + 0.5, y + 0.5);
                    var (u, v) = ((px * cos) + (py * sin), (py * cos) - (px * sin));
                    var on = cell.Prints(u, v, work.Tone(i), Around);
                    to[i] = on ? (byte)255 : (byte)0;
                }
            }
        );
        Clusters.Hold(work.Cut, mask, DotMm, LineMm, GapMm);
        ScreenRemains.Clear(work.Cut, PlaneMaker.Cut(grey), DotMm, GapMm);
        return new(work.Cut, true);
    }
}

/// <summary>A plane of one bit a dot, and whether it had tints that a screen drew.</summary>
public sealed record Screened(WhitePlane Plane, bool HadTints);

/// <summary>The tints that a screen prints true, as shares of solid.</summary>
/// <param name="Lightest">Below it nothing, or the lightest, prints.</param>
/// <param name="Darkest">Above it the darkest, or solid, prints.</param>
public readonly record struct ToneRange(double Lightest, double Darkest);
