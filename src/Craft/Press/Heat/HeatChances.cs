using System.Collections.Immutable;
using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Press.Heat;

/// <summary>A figure that is not known exactly: a factor on it, least, likeliest and most, with straight lines between on a scale of logarithms: half as much is as far as twice as much.</summary>
/// <param name="Low">Least factor, above zero.</param>
/// <param name="High">Most factor.</param>
/// <param name="Likely">Likeliest factor, between the two.</param>
public sealed record HeatSpread(double Low, double High, double Likely = 1)
{
    /// <summary>The factor below which a share of all cases falls.</summary>
    public double Quantile(double share)
    {
        var (low, high, likely) = (Math.Log(Low), Math.Log(High), Math.Log(Likely));
        var (width, rise) = (high - low, likely - low);
        return width <= 0
            ? Likely
            : Math.Exp(
                share * width < rise
                    ? low + Math.Sqrt(share * width * rise)
                    : high - Math.Sqrt((1 - share) * width * (high - likely))
            );
    }
}

/// <summary>How well the figures of a stack are known.</summary>
/// <param name="Layers">Conductivity, density, specific heat and thickness of a layer, by its name.</param>
/// <param name="Contacts">Conductance of every contact and plate contact that was not measured.</param>
/// <param name="PlateC">How far a held plate may be from its set-point, °C to either side.</param>
/// <param name="Bond">Speed of bonding, healing and entering together.</param>
/// <param name="Harm">Speed of harm.</param>
/// <param name="PressureKPa">Pressure.</param>
public sealed record HeatSpreads(
    ImmutableDictionary<string, HeatLayerSpread> Layers,
    HeatSpread Contacts,
    double PlateC,
    HeatSpread Bond,
    HeatSpread Harm,
    HeatSpread PressureKPa
)
{
    /// <summary>Conductance of the contacts that were measured.</summary>
    public ImmutableDictionary<HeatUnknown, HeatSpread> Measured { get; init; } =
        ImmutableDictionary<HeatUnknown, HeatSpread>.Empty;

    /// <summary>How well a contact is known.</summary>
    public HeatSpread Of(HeatUnknown contact) => Measured.GetValueOrDefault(contact, Contacts);
}

/// <summary>How well a layer's figures are known.</summary>
public sealed record HeatLayerSpread(HeatSpread WmK, HeatSpread Density, HeatSpread Heat, HeatSpread Thickness);

/// <summary>Chances of a press time.</summary>
/// <param name="Seconds">The time.</param>
/// <param name="Bonds">Share of all cases in which it bonds.</param>
/// <param name="Harms">Share of all cases in which it harms.</param>
public sealed record HeatChance(double Seconds, double Bonds, double Harms);

/// <summary>Press windows of many stacks whose figures are drawn from their spreads.</summary>
/// <remarks>Latin hypercube sampling: McKay, Beckman and Conover, Technometrics 21(2), 1979. The same seed gives the same answer on any number of cores.</remarks>
public sealed class HeatChances
{
    private readonly double[] _shortest;
    private readonly double[] _longest;

    private HeatChances(double[] shortest, double[] longest)
    {
        (_shortest, _longest) = (shortest, longest);
        Array.Sort(_shortest);
        Array.Sort(_longest);
    }

    /// <summary>Cases drawn.</summary>
    public int Samples => _shortest.Length;

    /// <summary>Draws that many cases and finds the window of each.</summary>
    /// <param name="ask">The window asked for.</param>
    /// <param name="spreads">How well its figures are known.</param>
    /// <param name="samples">Cases, above zero.</param>
    /// <param name="seed">Of the draw.</param>
    /// <param name="stop">Cancels.</param>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static HeatChances Draw(
        HeatWindowAsk ask,
        HeatSpreads spreads,
        int samples,
        ulong seed,
        CancellationToken stop = default
    )
    {
        ArgumentNullException.ThrowIfNull(ask);
        ArgumentNullException.ThrowIfNull(spreads);
        Need.Positive(samples);
        var figures = 6 + (4 * spreads.Layers.Count) + ask.Problem.Contacts.Length;
        var cube = Cube(samples, figures, new Rng(seed));
        var (shortest, longest) = (new double[samples], new double[samples]);
        string[] names = [.. spreads.Layers.Keys.Order(StringComparer.Ordinal)];
        Parallel.For(
            0,
            samples,
            new ParallelOptions { CancellationToken = stop },
            i =>
            {
                var window = HeatWindows.Find(Drawn(ask, spreads, names, cube[i]), HeatSearch.Quick, stop);
                shortest[i] = window.ShortestS ?? double.PositiveInfinity;
                longest[i] = window.LongestS ?? double.PositiveInfinity;
            }
        );
        return new(shortest, longest);
    }

    /// <summary>The chances of a press time in s.</summary>
    public HeatChance At(double seconds) => new(seconds, Share(_shortest, seconds), Share(_longest, seconds));

    /// <summary>The shortest time that bonds in a share of all cases, s; infinite when too few bond at all.</summary>
    public double ShortestS(double share) =>
        _shortest[Math.Clamp((int)Math.Ceiling(share * Samples) - 1, 0, Samples - 1)];

    /// <summary>The longest time that harms in no more than a share of all cases, s; infinite when fewer are ever harmed.</summary>
    public double LongestS(double share) => _longest[Math.Clamp((int)Math.Floor(share * Samples), 0, Samples - 1)];

    // Every figure is cut into as many equally likely strips as there are cases; each strip is drawn from once.
    internal static double[][] Cube(int samples, int figures, Rng rng)
    {
        double[][] cube = [.. Enumerable.Range(0, samples).Select(_ => new double[figures])];
        int[] strips = [.. Enumerable.Range(0, samples)];
        for (var f = 0; f < figures; f++)
        {
            rng.Shuffle(strips.AsSpan());
            for (var i = 0; i < samples; i++)
            {
                cube[i][f] = (strips[i] + rng.Unit()) / samples;
            }
        }

        return cube;
    }

    private static double Share(double[] sorted, double seconds)
    {
        var (low, high) = (0, sorted.Length);
        while (low < high)
        {
            var middle = (low + high) / 2;
            (low, high) = sorted[middle] <= seconds ? (middle + 1, high) : (low, middle);
        }

        return (double)low / sorted.Length;
    }

    private static HeatWindowAsk Drawn(HeatWindowAsk ask, HeatSpreads spreads, string[] names, double[] u)
    {
        var plate = spreads.PlateC * ((2 * u[0]) - 1);
        var touchUpper = spreads.Of(new HeatUnknown.UpperPlate()).Quantile(u[1]);
        var touchLower = spreads.Of(new HeatUnknown.LowerPlate()).Quantile(u[1]);
        var bond = spreads.Bond.Quantile(u[2]);
        var harm = spreads.Harm.Quantile(u[3]);
        var pressure = spreads.PressureKPa.Quantile(u[4]);
        var lower = spreads.PlateC * ((2 * u[5]) - 1);
        HeatLayer Layer(HeatLayer layer)
        {
            var at = Array.IndexOf(names, layer.Name);
            if (at < 0)
            {
                return layer;
            }

            var (spread, first) = (spreads.Layers[layer.Name], 6 + (4 * at));
            var k = spread.WmK.Quantile(u[first]);
            var density = spread.Density.Quantile(u[first + 1]);
            var heat = spread.Heat.Quantile(u[first + 2]);
            var thick = spread.Thickness.Quantile(u[first + 3]);
            return layer with
            {
                WmK = layer.WmK * k,
                WmKOf = Times(layer.WmKOf, k),
                DensityKgM3 = layer.DensityKgM3 * density,
                HeatJkgK = layer.HeatJkgK * heat,
                HeatJkgKOf = Times(layer.HeatJkgKOf, heat),
                ExactMm = layer.ThicknessMm * thick,
                Squeeze = layer.Squeeze is { } s
                    ? s with
                    {
                        SolidMm = Math.Min(s.SolidMm * thick * density, 0.95 * layer.ThicknessMm * thick),
                    }
                    : null,
            };
        }

        HeatSide Side(HeatSide side, double off, double touch) =>
            side switch
            {
                HeatSide.Held h => h with
                {
                    Temperature = Temperature.FromCelsius(h.Temperature.InCelsius + off),
                    ContactWm2K = h.ContactWm2K * touch,
                },
                HeatSide.Course c => c with
                {
                    Points = [.. c.Points.Select(p => (p.S, p.Celsius + off))],
                    ContactWm2K = c.ContactWm2K * touch,
                },
                _ => side,
            };
        var problem = ask.Problem;
        var after = 6 + (4 * names.Length);
        return ask with
        {
            Problem = problem with
            {
                Layers = [.. problem.Layers.Select(Layer)],
                Contacts =
                [
                    .. problem.Contacts.Select(
                        (c, i) =>
                            c with
                            {
                                Wm2K =
                                    c.Wm2K
                                    * spreads.Of(new HeatUnknown.Between(c.Above, c.Below)).Quantile(u[after + i]),
                            }
                    ),
                ],
                Stages =
                [
                    .. problem.Stages.Select(s =>
                        s with
                        {
                            Upper = Side(s.Upper, plate, touchUpper),
                            Lower = Side(s.Lower, lower, touchLower),
                            Add = [.. s.Add.Select(a => a with { Layer = Layer(a.Layer) })],
                            PressureKPa = s.PressureKPa * pressure,
                        }
                    ),
                ],
            },
            Glue = ask.Glue with
            {
                Heals = ask.Glue.Heals with { Seconds = ask.Glue.Heals.Seconds / bond },
                PaS = ask.Glue.PaS / bond,
            },
            Harm = ask.Harm.ToImmutableDictionary(
                h => h.Key,
                h => h.Value with { Dose = h.Value.Dose is { } d ? d with { Seconds = d.Seconds / harm } : null }
            ),
        };
    }

    private static HeatCurve? Times(HeatCurve? curve, double factor) =>
        curve is null ? null : new([.. curve.Points.Select(p => (p.Celsius, p.Value * factor))]);
}
