using System.Globalization;

namespace Coldpeel.Craft.Measures;

/// <summary>A length, held as whole micrometres so that sums and comparisons are exact.</summary>
/// <remarks><c>default</c> is zero. Negative is allowed: an offset. NaN and infinity are refused.</remarks>
public readonly record struct Length(long Micrometres) : IComparable<Length>
{
    /// <summary>Millimetres in one inch, exactly (international inch, 1959).</summary>
    public const double MillimetresPerInch = 25.4;

    /// <summary>Zero.</summary>
    public static Length Zero => default;

    /// <summary>The length nearest to <paramref name="mm"/> millimetres, half a micrometre away from zero.</summary>
    /// <exception cref="ArgumentOutOfRangeException">NaN or infinite.</exception>
    public static Length FromMillimetres(double mm) =>
        new(checked((long)Math.Round(Need.Finite(mm) * 1000, MidpointRounding.AwayFromZero)));

    /// <summary>The same length in millimetres.</summary>
    public double InMillimetres => Micrometres / 1000.0;

    /// <summary>The sum.</summary>
    public static Length operator +(Length a, Length b) => new(checked(a.Micrometres + b.Micrometres));

    /// <summary>The difference.</summary>
    public static Length operator -(Length a, Length b) => new(checked(a.Micrometres - b.Micrometres));

    /// <summary>Whether the first is shorter.</summary>
    public static bool operator <(Length a, Length b) => a.Micrometres < b.Micrometres;

    /// <summary>Whether the first is longer.</summary>
    public static bool operator >(Length a, Length b) => a.Micrometres > b.Micrometres;

    /// <summary>Whether the first is not longer.</summary>
    public static bool operator <=(Length a, Length b) => a.Micrometres <= b.Micrometres;

    /// <summary>Whether the first is not shorter.</summary>
    public static bool operator >=(Length a, Length b) => a.Micrometres >= b.Micrometres;

    /// <inheritdoc/>
    public int CompareTo(Length other) => Micrometres.CompareTo(other.Micrometres);

    /// <summary>Millimetres with the unit, the same in every culture: <c>12.5 mm</c>.</summary>
    public override string ToString() => InMillimetres.ToString("0.###", CultureInfo.InvariantCulture) + " mm";
}
