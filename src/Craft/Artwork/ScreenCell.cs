namespace Coldpeel.Craft.Artwork;

/// <summary>One cell of a line screen in dots of the printer: which of its parts print at which tint.</summary>
/// <remarks>
/// Frame: u along the lines, v across them; dots stand at whole multiples of the period. From light to dark: the smallest dot; the
/// dot growing until the gap to the next is the narrowest that stays open; bridges, one after another in a scattered order; lines
/// growing from the bridge's width to where the gap between lines is the narrowest; solid.
/// </remarks>
internal sealed class ScreenCell
{
    /// <summary>Dots that a stroke or a gap is drawn wider than its limit: edges on whole dots are off by up to half a dot on each side.</summary>
    public const double EdgeRoom = 1.5;

    /// <summary>Dots that the smallest dot's diameter is drawn larger, so that its area counted in whole dots is never short.</summary>
    public const double DotRoom = 1;

    private readonly double _period;
    private readonly double _small;
    private readonly double _large;
    private readonly double _half;
    private readonly double _grown;
    private readonly double _joined;

    public ScreenCell(LineScreen screen, double dotsPerMm)
    {
        _period = screen.PeriodMm * dotsPerMm;
        _small = (screen.DotMm * dotsPerMm / 2) + (DotRoom / 2);
        _large = (_period - ((screen.GapMm * dotsPerMm) + EdgeRoom)) / 2;
        _half = Math.Min(((screen.LineMm * dotsPerMm) + EdgeRoom) / 2, _small);
        if (_large < _small - 1e-6)
        {
            throw new ArgumentException(
                $"A screen of {screen.PeriodMm} mm has no room for dots of {screen.DotMm} mm and gaps of {screen.GapMm} mm.",
                nameof(screen)
            );
        }

        Lightest = Share(_small);
        _grown = Share(_large);
        _joined = Lines(_half);
        Darkest = Lines(_large);
    }

    /// <summary>The tint of smallest dots alone.</summary>
    public double Lightest { get; }

    /// <summary>The tint of lines with the narrowest gaps.</summary>
    public double Darkest { get; }

    /// <summary>Whether the dot at (u, v) prints.</summary>
    /// <param name="u">Along the lines.</param>
    /// <param name="v">Across the lines.</param>
    /// <param name="tone">The tint at this very dot.</param>
    /// <param name="around">
    /// The tint around a place of the frame, or null where there is none, and 0 where so many dots round it are not free; what stands or falls as a whole
    /// asks there.
    /// </param>
    public bool Prints(double u, double v, double tone, Func<double, double, double, double?> around)
    {
        var (i, j) = (Math.Round(u / _period), Math.Round(v / _period));
        var (a, b) = (u - (i * _period), v - (j * _period));
        var (square, aside) = ((a * a) + (b * b), Math.Abs(b));
        if (square <= _large * _large)
        {
            return (around(i * _period, j * _period, _large) ?? tone) >= Lightest / 2
                && (square <= _small * _small || tone >= Math.PI * square / (_period * _period));
        }

        if (aside > _large)
        {
            var between = (j + (b < 0 ? -0.5 : 0.5)) * _period;
            return (around(i * _period, between, 0) ?? tone) >= (1 + Darkest) / 2;
        }

        var link = a < 0 ? i - 1 : i;
        return (around((link + 0.5) * _period, j * _period, _large + (_period / 2)) ?? tone) >= LinkTone(link, j)
            && (aside <= _half || tone >= Lines(aside));
    }

    // Multiples of the plastic number's powers fill the square evenly in any order (Roberts, 2018, the R2 sequence).
    private double LinkTone(double i, double j)
    {
        var rank = (i * 0.7548776662466927) + (j * 0.5698402909980532);
        return _grown + ((rank - Math.Floor(rank)) * (_joined - _grown));
    }

    private double Share(double radius) => Math.PI * radius * radius / (_period * _period);

    /// <summary>Share of a cell that full dots and a line of this half width take together.</summary>
    private double Lines(double half)
    {
        var r = _large;
        var shared =
            half >= r
                ? Math.PI * r * r
                : 2 * ((half * Math.Sqrt((r * r) - (half * half))) + (r * r * Math.Asin(half / r)));
        return ((Math.PI * r * r) + (2 * half * _period) - shared) / (_period * _period);
    }
}
