namespace Coldpeel.Craft.Press.Heat;

/// <summary>How a layer is cut into cells.</summary>
internal static class HeatCells
{
    // A layer through which heat takes this long (thickness² / diffusivity) gets six cells; others more or fewer with the fourth root. Found by
    // trial on a stack of twelve layers: the glue line is then within 0.08 °C of a grid twenty times as fine.
    private const double QuickS = 0.5;
    private const double AtQuick = 6;
    private const double Fewest = 4;
    private const double Most = 80;

    // Cells of a layer cut by its own measure are this much finer at its faces, where the heat enters, than on average.
    private const double FacesFiner = 0.75;

    /// <summary>Faces of the cells as shares of the thickness, from 0 to 1, for a layer of that thickness in metres.</summary>
    public static double[] Faces(HeatLayer layer, HeatSearch search)
    {
        if (search.CellsPerLayer > 0)
        {
            return [.. Enumerable.Range(0, search.CellsPerLayer + 1).Select(i => (double)i / search.CellsPerLayer)];
        }

        var metres = layer.ThicknessMm / 1000;
        var k = layer.WmKOf?.At(layer.Start.InCelsius) ?? layer.WmK;
        var heat = layer.HeatJkgKOf?.At(layer.Start.InCelsius) ?? layer.HeatJkgK;
        var seconds = metres * metres * layer.DensityKgM3 * heat / k;
        var wanted = Math.Clamp(AtQuick * Math.Pow(seconds / QuickS, 0.25), Fewest, Most) * search.Fineness;
        var cells = (int)Math.Round(wanted);
        var finer = cells < 5 ? 0 : FacesFiner;
        return
        [
            .. Enumerable
                .Range(0, cells + 1)
                .Select(i => (double)i / cells)
                .Select(s => s - (finer * Math.Sin(2 * Math.PI * s) / (2 * Math.PI))),
        ];
    }
}
