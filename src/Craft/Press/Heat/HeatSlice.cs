namespace Coldpeel.Craft.Press.Heat;

/// <summary>A layer in the stack with the state of its cells.</summary>
internal sealed class HeatSlice
{
    public HeatSlice(HeatLayer layer, int index, HeatSearch search)
    {
        (Layer, Index) = (layer, index);
        Faces = HeatCells.Faces(layer, search);
        Celsius = new double[Faces.Length - 1];
        Array.Fill(Celsius, layer.Start.InCelsius);
        Dried = new double[Celsius.Length];
        var kgM2 = layer.DensityKgM3 * layer.ThicknessMm / 1000;
        MassKgM2 = [.. Enumerable.Range(0, Celsius.Length).Select(i => kgM2 * (Faces[i + 1] - Faces[i]))];
        if (layer.Damp is { } damp && damp.FromC < layer.Start.InCelsius)
        {
            // What enters hot has dried already as far as its temperature says.
            Array.Fill(Dried, Ramp(damp, layer.Start.InCelsius));
        }
    }

    public HeatLayer Layer { get; }

    /// <summary>Its number among all layers that ever lie in the stack.</summary>
    public int Index { get; }

    /// <summary>Faces of its cells as shares of the thickness.</summary>
    public double[] Faces { get; }

    public double[] MassKgM2 { get; }

    public double[] Celsius { get; }

    /// <summary>Share of its water that has left each cell.</summary>
    public double[] Dried { get; }

    /// <summary>Heat held, J/m², counted from 0 °C (from the first point of a curve) and without what dried off before it came in.</summary>
    public double Heat()
    {
        var sum = 0.0;
        for (var i = 0; i < Celsius.Length; i++)
        {
            sum += MassKgM2[i] * Sensible(Celsius[i]);
        }

        return sum;
    }

    /// <summary>Heat that went into drying, J/m².</summary>
    public double Latent()
    {
        var sum = 0.0;
        for (var i = 0; i < Dried.Length && Layer.Damp is not null; i++)
        {
            sum += MassKgM2[i] * Layer.Damp.WaterShare * Layer.Damp.LatentJkg * Dried[i];
        }

        return sum;
    }

    private double Sensible(double celsius) =>
        Layer.HeatJkgKOf is { } curve ? curve.Integral(celsius) - curve.Integral(0) : Layer.HeatJkgK * celsius;

    internal static double Ramp(HeatDamp damp, double celsius) =>
        Math.Clamp((celsius - damp.FromC) / (damp.ToC - damp.FromC), 0, 1);
}
