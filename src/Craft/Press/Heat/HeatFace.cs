namespace Coldpeel.Craft.Press.Heat;

/// <summary>What lies against an outer face of the stack, as the outermost cell feels it.</summary>
internal sealed class HeatFace
{
    // Stefan and Boltzmann's constant, W/(m²·K⁴): exact in the SI of 2019 to the digits here (CODATA 2018).
    private const double Stefan = 5.670374419e-8;
    private const double ZeroC = 273.15;

    private readonly double _resistance;
    private readonly double _outside;
    private readonly double _emissivity;
    private readonly double _convection;
    private readonly double _flux;
    private readonly HeatSide.Course? _course;

    public HeatFace(HeatSide side, double pressureKPa)
    {
        (_resistance, _outside) = (double.PositiveInfinity, double.NaN);
        switch (side)
        {
            case HeatSide.Held held:
                (_resistance, _outside) = (
                    Resistance(held.ContactWm2K, held.Growth, pressureKPa),
                    held.Temperature.InCelsius
                );
                break;
            case HeatSide.Course course:
                (_resistance, _course) = (Resistance(course.ContactWm2K, course.Growth, pressureKPa), course);
                break;
            case HeatSide.Open { Emissivity: 0 } open:
                (_resistance, _outside) = (1 / open.Wm2K, open.Air.InCelsius);
                break;
            case HeatSide.Open open:
                (_emissivity, _convection, _outside) = (open.Emissivity, open.Wm2K, open.Air.InCelsius);
                break;
            case HeatSide.Flux flux:
                _flux = flux.Wm2;
                break;
        }
    }

    /// <summary>Whether the heat through the face is a straight line of the cell's temperature.</summary>
    public bool Linear => _emissivity == 0;

    /// <summary>Whether the outside changes while nothing is moved.</summary>
    public bool Changes => _course is { Points.Length: > 1 };

    /// <summary>Whether heat comes in without any temperature that bounds it.</summary>
    public bool Unbounded => _flux != 0;

    /// <summary>Coldest and hottest that the outside ever is, °C; null when nothing lies there.</summary>
    public (double Low, double High)? Outside =>
        _course is not null ? (_course.Points.Min(p => p.Celsius), _course.Points.Max(p => p.Celsius))
        : double.IsNaN(_outside) ? null
        : (_outside, _outside);

    /// <summary>Heat into the cell, W/m², with what one kelvin more in the cell takes from it, and the temperature of the face.</summary>
    public (double Into, double Conductance, double FaceC) At(double cellC, double half, double time)
    {
        if (_emissivity > 0)
        {
            return Radiating(cellC, half);
        }

        if (double.IsPositiveInfinity(_resistance))
        {
            return (_flux, 0, cellC + (_flux * half));
        }

        var conductance = 1 / (half + _resistance);
        var into = conductance * ((_course is null ? _outside : Course(time).Celsius) - cellC);
        return (into, conductance, cellC + (into * half));
    }

    /// <summary>How fast the face's temperature changes, K/s, where the cell's changes so fast.</summary>
    public double FaceRate(double cellRate, double half, double conductance, double time) =>
        cellRate + (half * conductance * ((_course is null ? 0 : Course(time).Slope) - cellRate));

    private (double Celsius, double Slope) Course(double time)
    {
        var points = _course!.Points;
        if (time <= points[0].S)
        {
            return (points[0].Celsius, 0);
        }

        // The last point before the time; traces have some hundred points, so a search by halves is enough.
        var (low, high) = (0, points.Length - 1);
        if (time >= points[high].S)
        {
            return (points[high].Celsius, 0);
        }

        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            (low, high) = points[middle].S <= time ? (middle, high) : (low, middle);
        }

        var slope = (points[high].Celsius - points[low].Celsius) / (points[high].S - points[low].S);
        return (points[low].Celsius + ((time - points[low].S) * slope), slope);
    }

    // The face's temperature is where conduction from the cell's middle equals convection and radiation: Newton, which only falls towards the root
    // from above because the outflow is convex.
    private (double, double, double) Radiating(double cellC, double half)
    {
        var air = _outside + ZeroC;
        var face = Math.Max(cellC, _outside);
        var (outflow, grows) = (0.0, 0.0);
        for (var i = 0; i < 50; i++)
        {
            var kelvin = face + ZeroC;
            outflow =
                (_convection * (face - _outside))
                + (_emissivity * Stefan * ((kelvin * kelvin * kelvin * kelvin) - (air * air * air * air)));
            grows = _convection + (4 * _emissivity * Stefan * kelvin * kelvin * kelvin);
            var wrong = face - cellC + (half * outflow);
            var step = wrong / (1 + (half * grows));
            face -= step;
            if (Math.Abs(step) < 1e-12)
            {
                break;
            }
        }

        return (-outflow, grows / (1 + (half * grows)), face);
    }

    private static double Resistance(double? wm2K, HeatGrowth? growth, double kPa) =>
        wm2K is { } h ? 1 / (h * (growth?.Times(kPa) ?? 1)) : 0;
}
