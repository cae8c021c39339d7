using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Heat;

/// <summary>A stack cut into cells: a finite-volume grid whose faces carry the exact series resistances, so that no heat is created or lost.</summary>
internal sealed class HeatGrid
{
    private readonly int[] _firstCell;

    public HeatGrid(
        ImmutableArray<HeatLayer> layers,
        ImmutableArray<HeatContact> contacts,
        HeatStage stage,
        int cellsPerLayer
    )
    {
        Layers = layers;
        var cells = layers.Length * cellsPerLayer;
        Capacity = new double[cells];
        Between = new double[cells - 1];
        HalfResistance = new double[cells];
        ContactAfter = new double[cells];
        _firstCell = [.. Enumerable.Range(0, layers.Length + 1).Select(i => i * cellsPerLayer)];
        for (var layer = 0; layer < layers.Length; layer++)
        {
            var width = layers[layer].Thickness.InMillimetres / 1000 / cellsPerLayer;
            for (var cell = _firstCell[layer]; cell < _firstCell[layer + 1]; cell++)
            {
                Capacity[cell] = layers[layer].DensityKgM3 * layers[layer].HeatJkgK * width;
                HalfResistance[cell] = width / 2 / layers[layer].WmK;
            }
        }

        for (var cell = 0; cell + 1 < cells; cell++)
        {
            var layer = cell / cellsPerLayer;
            var contact =
                (cell + 1) % cellsPerLayer == 0
                    ? contacts.FirstOrDefault(c => c.Above == layers[layer].Name && c.Below == layers[layer + 1].Name)
                    : null;
            ContactAfter[cell] = contact is null ? 0 : 1 / contact.Wm2K;
            Between[cell] = 1 / (HalfResistance[cell] + ContactAfter[cell] + HalfResistance[cell + 1]);
        }

        (Upper, UpperC) = Outer(stage.Upper, HalfResistance[0]);
        (Lower, LowerC) = Outer(stage.Lower, HalfResistance[^1]);
    }

    public ImmutableArray<HeatLayer> Layers { get; }

    /// <summary>Heat capacity of every cell, J/(m²·K).</summary>
    public double[] Capacity { get; }

    /// <summary>Conductance from the middle of a cell to the middle of the next, W/(m²·K).</summary>
    public double[] Between { get; }

    /// <summary>Resistance from the middle of a cell to its face, m²·K/W.</summary>
    public double[] HalfResistance { get; }

    /// <summary>Contact resistance below a cell, m²·K/W.</summary>
    public double[] ContactAfter { get; }

    /// <summary>Conductance from the first cell's middle to what lies on top, and its temperature.</summary>
    public double Upper { get; }

    public double UpperC { get; }

    /// <summary>Conductance from the last cell's middle to what lies underneath, and its temperature.</summary>
    public double Lower { get; }

    public double LowerC { get; }

    public int Cells => Capacity.Length;

    public Range CellsOf(int layer) => _firstCell[layer].._firstCell[layer + 1];

    /// <summary>Temperatures on both sides of the boundary below a layer, from the flux that crosses it.</summary>
    public (double UpperSideC, double LowerSideC) Boundary(double[] celsius, int layer)
    {
        if (layer == Layers.Length - 1)
        {
            var outward = Lower * (celsius[^1] - LowerC);
            var face = celsius[^1] - (outward * HalfResistance[^1]);
            return (face, face);
        }

        var cell = _firstCell[layer + 1] - 1;
        var flux = Between[cell] * (celsius[cell] - celsius[cell + 1]);
        return (celsius[cell] - (flux * HalfResistance[cell]), celsius[cell + 1] + (flux * HalfResistance[cell + 1]));
    }

    /// <summary>The temperature of the upper face of the whole stack.</summary>
    public double UpperFace(double[] celsius) => celsius[0] - (Upper * (celsius[0] - UpperC) * HalfResistance[0]);

    /// <summary>Rates of change by conduction, K/s.</summary>
    public void Rate(double[] celsius, double[] rate)
    {
        var last = Cells - 1;
        for (var i = 0; i <= last; i++)
        {
            var into = i == 0 ? Upper * (UpperC - celsius[0]) : Between[i - 1] * (celsius[i - 1] - celsius[i]);
            into += i == last ? Lower * (LowerC - celsius[i]) : Between[i] * (celsius[i + 1] - celsius[i]);
            rate[i] = into / Capacity[i];
        }
    }

    /// <summary>
    /// Solves (I - w·A) x = right side + w·b in place, where A x + b is the rate of change: the tridiagonal system of an implicit step.
    /// Without the <paramref name="outside"/> temperatures b is zero, as for a difference of two states.
    /// </summary>
    public void SolveImplicit(double w, double[] x, double[] scratch, bool outside = true)
    {
        var last = Cells - 1;
        for (var i = 0; i <= last; i++)
        {
            var above = i == 0 ? Upper : Between[i - 1];
            var below = i == last ? Lower : Between[i];
            var c = w / Capacity[i];
            var diagonal = 1 + (c * (above + below));
            var right = x[i];
            right += outside && i == 0 ? c * Upper * UpperC : 0;
            right += outside && i == last ? c * Lower * LowerC : 0;
            if (i > 0)
            {
                var lower = -c * above;
                diagonal -= lower * scratch[i - 1];
                right -= lower * x[i - 1];
            }

            scratch[i] = i == last ? 0 : -c * below / diagonal;
            x[i] = right / diagonal;
        }

        for (var i = last - 1; i >= 0; i--)
        {
            x[i] -= scratch[i] * x[i + 1];
        }
    }

    private static (double Conductance, double Celsius) Outer(HeatSide side, double half) =>
        side switch
        {
            HeatSide.Held held => (1 / (half + (held.ContactWm2K is { } h ? 1 / h : 0)), held.Temperature.InCelsius),
            HeatSide.Open open => (1 / (half + (1 / open.Wm2K)), open.Air.InCelsius),
            _ => (0, 0),
        };
}
