using System.Runtime.CompilerServices;

namespace Coldpeel.Craft.Measures;

/// <summary>Checks of arguments: a fault of the caller throws at once, with the name of the argument.</summary>
public static class Need
{
    /// <summary>The value, when it is a number; NaN and infinity are refused.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is NaN or infinite.</exception>
    public static double Finite(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(name, value, "A finite number is needed.");

    /// <summary>The value, when it is a number above zero.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is zero, negative, NaN or infinite.</exception>
    public static double Positive(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value) && value > 0
            ? value
            : throw new ArgumentOutOfRangeException(name, value, "A number above zero is needed.");

    /// <summary>The value, when it is a number not below zero.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is negative, NaN or infinite.</exception>
    public static double NotNegative(double value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        double.IsFinite(value) && value >= 0
            ? value
            : throw new ArgumentOutOfRangeException(name, value, "A number not below zero is needed.");

    /// <summary>The value, when it is a whole number above zero.</summary>
    /// <exception cref="ArgumentOutOfRangeException">The value is zero or negative.</exception>
    public static int Positive(int value, [CallerArgumentExpression(nameof(value))] string? name = null) =>
        value > 0 ? value : throw new ArgumentOutOfRangeException(name, value, "A whole number above zero is needed.");
}
