using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Heat;

/// <summary>A stack cut into cells: a finite-volume grid whose faces carry the exact series resistances, so that no heat is created or lost.</summary>
internal sealed class HeatGrid
{
    private readonly HeatSlice[] _slices;
    private readonly int[] _first;
    private readonly int[] _sliceOf;
    private readonly double[] _mass;
    private readonly double[] _width;
    private readonly double[] _conductsBetter;
    private readonly double[] _contactAfter;
    private readonly double[] _half;
    private readonly double[] _between;
    private readonly double[] _capacity;
    private readonly double[] _inverse;
    private readonly double[] _factor;
    private readonly HeatFace _upper;
    private readonly HeatFace _lower;
    private readonly bool _curvedFlow;
    private double _factoredFor = double.NaN;

    public HeatGrid(IReadOnlyList<HeatSlice> slices, ImmutableArray<HeatContact> contacts, HeatStage stage)
    {
        _slices = [.. slices];
        _first = new int[_slices.Length + 1];
        for (var s = 0; s < _slices.Length; s++)
        {
            _first[s + 1] = _first[s] + _slices[s].Celsius.Length;
        }

        var cells = _first[^1];
        (_sliceOf, _mass, _width, _conductsBetter) = (
            new int[cells],
            new double[cells],
            new double[cells],
            new double[cells]
        );
        (_contactAfter, _half, _between) = (new double[cells], new double[cells], new double[cells]);
        (_capacity, _inverse, _factor) = (new double[cells], new double[cells], new double[cells]);
        (Celsius, Dried) = (new double[cells], new double[cells]);
        for (var s = 0; s < _slices.Length; s++)
        {
            Fill(s, stage.PressureKPa);
            if (s + 1 < _slices.Length)
            {
                var (above, below) = (_slices[s].Layer.Name, _slices[s + 1].Layer.Name);
                foreach (var contact in contacts)
                {
                    if (contact.Above == above && contact.Below == below)
                    {
                        var h = contact.Wm2K * (contact.Growth?.Times(stage.PressureKPa) ?? 1);
                        _contactAfter[_first[s + 1] - 1] = 1 / h;
                        break;
                    }
                }
            }
        }

        (_upper, _lower) = (new HeatFace(stage.Upper, stage.PressureKPa), new HeatFace(stage.Lower, stage.PressureKPa));
        _curvedFlow = _slices.Any(s => s.Layer.WmKOf is not null);
        CurvedHeat = _slices.Any(s => s.Layer.HeatJkgKOf is not null || s.Layer.Damp is not null);
        Linear = !_curvedFlow && !CurvedHeat && _upper.Linear && _lower.Linear;
        Conduct(Celsius);
        for (var i = 0; i < cells; i++)
        {
            _capacity[i] = Capacity(i, Celsius[i]);
        }
    }

    /// <summary>Temperatures of the cells at the start of the stage, °C.</summary>
    public double[] Celsius { get; }

    /// <summary>Share of its water that has left each cell.</summary>
    public double[] Dried { get; }

    /// <summary>Whether everything is a straight line of temperature, so that one solve is exact.</summary>
    public bool Linear { get; }

    /// <summary>Whether the heat held is not a straight line of temperature.</summary>
    public bool CurvedHeat { get; }

    /// <summary>A heat source for the check by a made solution, W/m² in every cell at a time; null outside tests.</summary>
    public Action<double, double[]>? Source { get; set; }

    public int Cells => _mass.Length;

    public int Layers => _slices.Length;

    public HeatSlice Slice(int layer) => _slices[layer];

    public Range CellsOf(int layer) => _first[layer].._first[layer + 1];

    /// <summary>Coldest and hottest that anything can get: what is in the stack and what lies around it.</summary>
    public (double Low, double High) Bounds()
    {
        if (_upper.Unbounded || _lower.Unbounded || Source is not null)
        {
            return (double.NegativeInfinity, double.PositiveInfinity);
        }

        var (low, high) = (Celsius.Min(), Celsius.Max());
        foreach (var outside in new[] { _upper.Outside, _lower.Outside })
        {
            (low, high) = outside is { } o ? (Math.Min(low, o.Low), Math.Max(high, o.High)) : (low, high);
        }

        return (low, high);
    }

    /// <summary>Heat held by a cell, J/m², with what its drying took since the start of the stack.</summary>
    public double Held(int cell, double celsius)
    {
        if (!CurvedHeat)
        {
            return _capacity[cell] * celsius;
        }

        var layer = _slices[_sliceOf[cell]].Layer;
        var held = layer.HeatJkgKOf?.Integral(celsius) ?? (layer.HeatJkgK * celsius);
        if (layer.Damp is { } damp)
        {
            held += damp.WaterShare * damp.LatentJkg * Math.Max(Dried[cell], HeatSlice.Ramp(damp, celsius));
        }

        return _mass[cell] * held;
    }

    /// <summary>Heat that cells have taken up or given away since the start of the stage, J/m².</summary>
    public double Exchanged(double[] celsius)
    {
        var sum = 0.0;
        for (var i = 0; i < celsius.Length; i++)
        {
            sum += Math.Abs(Held(i, celsius[i]) - Held(i, Celsius[i]));
        }

        return sum;
    }

    /// <summary>What one kelvin more takes, J/(m²·K).</summary>
    public double Capacity(int cell, double celsius)
    {
        var layer = _slices[_sliceOf[cell]].Layer;
        var heat = layer.HeatJkgKOf?.At(celsius) ?? layer.HeatJkgK;
        if (
            layer.Damp is { } damp
            && celsius > damp.FromC
            && celsius < damp.ToC
            && HeatSlice.Ramp(damp, celsius) >= Dried[cell]
        )
        {
            heat += damp.WaterShare * damp.LatentJkg / (damp.ToC - damp.FromC);
        }

        return _mass[cell] * heat;
    }

    /// <summary>Marks what has dried at these temperatures, for good.</summary>
    public void Dry(double[] celsius)
    {
        for (var i = 0; CurvedHeat && i < celsius.Length; i++)
        {
            if (_slices[_sliceOf[i]].Layer.Damp is { } damp)
            {
                Dried[i] = Math.Max(Dried[i], HeatSlice.Ramp(damp, celsius[i]));
            }
        }
    }

    /// <summary>Heat into every cell, W/m².</summary>
    /// <returns>What comes in through the upper and the lower face, W/m².</returns>
    public (double Upper, double Lower) Flow(double[] celsius, double time, double[] into)
    {
        if (_curvedFlow)
        {
            Conduct(celsius);
        }

        var last = celsius.Length - 1;
        Array.Clear(into);
        Source?.Invoke(time, into);
        var upper = _upper.At(celsius[0], _half[0], time).Into;
        var lower = _lower.At(celsius[last], _half[last], time).Into;
        into[0] += upper;
        into[last] += lower;
        for (var i = 0; i < last; i++)
        {
            var flux = _between[i] * (celsius[i] - celsius[i + 1]);
            into[i] -= flux;
            into[i + 1] += flux;
        }

        return (upper, lower);
    }

    /// <summary>Solves (C + w K) x = right side in place: C what the cells hold for one kelvin, K how they conduct, both at these temperatures; fresh tells that they are not those of the last solve.</summary>
    public void Solve(double w, double[] x, double[] celsius, double time, bool fresh)
    {
        if (w != _factoredFor || (fresh && !Linear))
        {
            Factor(w, celsius, time);
        }

        var last = x.Length - 1;
        for (var i = 1; i <= last; i++)
        {
            x[i] += _factor[i - 1] * x[i - 1];
        }

        x[last] *= _inverse[last];
        for (var i = last - 1; i >= 0; i--)
        {
            x[i] = (x[i] * _inverse[i]) + (_factor[i] * x[i + 1]);
        }
    }

    /// <summary>Writes the faces of all layers: temperature and rate above, temperature and rate below, four numbers a layer at its number.</summary>
    public void WriteFaces(double[] celsius, double[] into, double time, double[] row)
    {
        Array.Fill(row, double.NaN);
        if (_curvedFlow)
        {
            Conduct(celsius);
        }

        for (var s = 0; s < _slices.Length; s++)
        {
            var at = 4 * _slices[s].Index;
            var (top, bottom) = (_first[s], _first[s + 1] - 1);
            (row[at], row[at + 1]) = Upper(top, celsius, into, time);
            (row[at + 2], row[at + 3]) = Lower(bottom, celsius, into, time);
        }
    }

    private (double C, double Rate) Upper(int cell, double[] celsius, double[] into, double time)
    {
        var rate = into[cell] / CapacityNow(cell, celsius);
        if (cell == 0)
        {
            var (_, conductance, face) = _upper.At(celsius[0], _half[0], time);
            return (face, _upper.FaceRate(rate, _half[0], conductance, time));
        }

        var share = _between[cell - 1] * _half[cell];
        var above = into[cell - 1] / CapacityNow(cell - 1, celsius);
        return (celsius[cell] + (share * (celsius[cell - 1] - celsius[cell])), rate + (share * (above - rate)));
    }

    private (double C, double Rate) Lower(int cell, double[] celsius, double[] into, double time)
    {
        var rate = into[cell] / CapacityNow(cell, celsius);
        if (cell == celsius.Length - 1)
        {
            var (_, conductance, face) = _lower.At(celsius[cell], _half[cell], time);
            return (face, _lower.FaceRate(rate, _half[cell], conductance, time));
        }

        var share = _between[cell] * _half[cell];
        var below = into[cell + 1] / CapacityNow(cell + 1, celsius);
        return (celsius[cell] + (share * (celsius[cell + 1] - celsius[cell])), rate + (share * (below - rate)));
    }

    private double CapacityNow(int cell, double[] celsius) =>
        CurvedHeat ? Capacity(cell, celsius[cell]) : _capacity[cell];

    private void Fill(int s, double pressureKPa)
    {
        var slice = _slices[s];
        var free = slice.Layer.ThicknessMm;
        var metres = (slice.Layer.Squeeze?.ThicknessMm(free, pressureKPa) ?? free) / 1000;
        var better = slice.Layer.Squeeze?.ConductsBetter(free, pressureKPa) ?? 1;
        for (var i = 0; i < slice.Celsius.Length; i++)
        {
            var cell = _first[s] + i;
            _sliceOf[cell] = s;
            _mass[cell] = slice.MassKgM2[i];
            _width[cell] = metres * (slice.Faces[i + 1] - slice.Faces[i]);
            _conductsBetter[cell] = better;
            Celsius[cell] = slice.Celsius[i];
            Dried[cell] = slice.Dried[i];
        }
    }

    private void Conduct(double[] celsius)
    {
        for (var i = 0; i < celsius.Length; i++)
        {
            var layer = _slices[_sliceOf[i]].Layer;
            _half[i] = _width[i] / 2 / ((layer.WmKOf?.At(celsius[i]) ?? layer.WmK) * _conductsBetter[i]);
        }

        for (var i = 0; i + 1 < celsius.Length; i++)
        {
            _between[i] = 1 / (_half[i] + _contactAfter[i] + _half[i + 1]);
        }
    }

    private void Factor(double w, double[] celsius, double time)
    {
        var last = celsius.Length - 1;
        var upper = w * _upper.At(celsius[0], _half[0], time).Conductance;
        var lower = w * _lower.At(celsius[last], _half[last], time).Conductance;
        var before = 0.0;
        for (var i = 0; i <= last; i++)
        {
            var after = i == last ? lower : w * _between[i];
            var diagonal = CapacityNow(i, celsius) + (i == 0 ? upper : w * _between[i - 1]) + after - before;
            _inverse[i] = 1 / diagonal;
            // Eliminating the next row takes w·K times this factor from its diagonal.
            _factor[i] = i == last ? 0 : after * _inverse[i];
            before = i == last ? 0 : after * _factor[i];
        }

        _factoredFor = w;
    }
}
