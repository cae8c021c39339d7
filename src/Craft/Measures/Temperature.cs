using System.Globalization;

namespace Coldpeel.Craft.Measures;

/// <summary>A temperature, held in degrees Celsius.</summary>
/// <remarks><c>default</c> is 0 °C. Below absolute zero (-273.15 °C), NaN and infinity are refused.</remarks>
public readonly record struct Temperature : IComparable<Temperature>
{
    private Temperature(double celsius) => InCelsius = celsius;

    /// <summary>Degrees Celsius.</summary>
    public double InCelsius { get; }

    /// <summary>Kelvin: Celsius + 273.15 (SI, exact).</summary>
    public double InKelvin => InCelsius + 273.15;

    /// <summary>A temperature in degrees Celsius.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Below absolute zero, NaN or infinite.</exception>
    public static Temperature FromCelsius(double celsius) =>
        Need.Finite(celsius) >= -273.15
            ? new(celsius)
            : throw new ArgumentOutOfRangeException(nameof(celsius), celsius, "Nothing is colder than -273.15 °C.");

    /// <summary>Whether the first is colder.</summary>
    public static bool operator <(Temperature a, Temperature b) => a.InCelsius < b.InCelsius;

    /// <summary>Whether the first is hotter.</summary>
    public static bool operator >(Temperature a, Temperature b) => a.InCelsius > b.InCelsius;

    /// <summary>Whether the first is not hotter.</summary>
    public static bool operator <=(Temperature a, Temperature b) => a.InCelsius <= b.InCelsius;

    /// <summary>Whether the first is not colder.</summary>
    public static bool operator >=(Temperature a, Temperature b) => a.InCelsius >= b.InCelsius;

    /// <inheritdoc/>
    public int CompareTo(Temperature other) => InCelsius.CompareTo(other.InCelsius);

    /// <summary>Degrees with the unit, the same in every culture: <c>150 °C</c>.</summary>
    public override string ToString() => InCelsius.ToString("0.#", CultureInfo.InvariantCulture) + " °C";
}
