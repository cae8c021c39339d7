using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Craft.Press.Heat;

namespace Coldpeel.Workshop.Press;

/// <summary>Judges whether readings have measured the contacts that were fitted to them.</summary>
public static class HeatTrust
{
    // A contact known to no better than a factor of ten is not measured; readings that a model misses by three times what they claim do not belong to it.
    private const double Widest = 10;
    private const double Apart = 3;

    // A triangle, here on a scale of logarithms, holds 95 % of its cases within this share of the way to its ends: 1 - sqrt(0.05).
    private const double Within95 = 0.7764;

    /// <summary>Why the contacts do not count as measured, as a clause; null when they do.</summary>
    /// <param name="fitted">The fit.</param>
    /// <param name="readings">What it was fitted to.</param>
    public static string? Doubt(HeatFitted fitted, ImmutableArray<HeatReading> readings)
    {
        ArgumentNullException.ThrowIfNull(fitted);
        if (!fitted.Settled)
        {
            return "the search for the contacts did not come to rest";
        }

        var within = Math.Sqrt(readings.Average(r => r.WithinK * r.WithinK));
        if (!(fitted.ResidualK <= Apart * within))
        {
            return Say(
                $"readings and model stay {fitted.ResidualK:0.0} K apart, and the readings are said to be good within {within:0.0} K"
            );
        }

        // Readings that agree by chance are no better than they claim; and a bound may be zero, infinite or not a number.
        var looser = Math.Max(1, within / Math.Max(fitted.ResidualK, 1e-9));
        return
            fitted.Found.FirstOrDefault(f => !(looser * Math.Log(f.HighWm2K / f.LowWm2K) < Math.Log(Widest)))
                is { } wide
            ? $"the readings do not tell how well {Name(wide.Contact)} touches"
            : null;
    }

    /// <summary>Why press trials do not tell how fast the glue bonds, as a clause; null when they do.</summary>
    /// <param name="fitted">What was fitted to them.</param>
    public static string? Doubt(GlueFitted fitted)
    {
        ArgumentNullException.ThrowIfNull(fitted);
        return fitted.High / fitted.Low < Widest
            ? null
            : Say($"the trials leave it open between {fitted.Low:0.00} and {fitted.High:0.00} times the usual speed");
    }

    /// <summary>The spread of a figure from its 95 % interval, as factors on it.</summary>
    /// <param name="value">The figure, above zero.</param>
    /// <param name="low">Lower end of the interval, above zero.</param>
    /// <param name="high">Upper end of the interval.</param>
    public static HeatSpread Spread(double value, double low, double high) =>
        new(Math.Pow(low / value, 1 / Within95), Math.Pow(high / value, 1 / Within95));

    /// <summary>The name of a contact in a sentence.</summary>
    public static string Name(HeatUnknown contact) =>
        contact switch
        {
            HeatUnknown.Between b => $"{b.Above} on {b.Below}",
            HeatUnknown.UpperPlate => "the upper plate",
            _ => "the lower plate",
        };

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
