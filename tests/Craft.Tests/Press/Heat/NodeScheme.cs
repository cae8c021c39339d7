namespace Coldpeel.Craft.Tests.Press.Heat;

/// <summary>
/// A slab by finite differences at nodes, as textbooks write it: explicit, fully implicit, or Crank and Nicolson's. It shares nothing with the
/// program's solver (nodes, not cells; other time schemes; a dense solve) and is held to printed digits itself before it judges anything.
/// </summary>
internal static class NodeScheme
{
    /// <summary>Temperatures of the nodes after so many steps.</summary>
    /// <param name="fo">Fourier number of a step: α dt / dx².</param>
    /// <param name="theta">0 explicit, 1/2 Crank and Nicolson, 1 fully implicit.</param>
    /// <param name="start">Temperatures at the start; the last node keeps its temperature.</param>
    /// <param name="fluxRise">q dx / k at the first node, in kelvin; null when that node keeps its temperature.</param>
    public static double[] March(double fo, double theta, int steps, double[] start, double? fluxRise)
    {
        var n = start.Length;
        var now = start.ToArray();
        for (var step = 0; step < steps; step++)
        {
            var (matrix, right) = (new double[n, n], new double[n]);
            for (var i = 0; i < n; i++)
            {
                var second =
                    i == n - 1 || (i == 0 && fluxRise is null) ? 0
                    : i == 0 ? 2 * (now[1] - now[0] + fluxRise!.Value)
                    : now[i - 1] - (2 * now[i]) + now[i + 1];
                matrix[i, i] = 1;
                right[i] = now[i] + ((1 - theta) * fo * second);
                if (i == n - 1 || (i == 0 && fluxRise is null))
                {
                    continue;
                }

                matrix[i, i] += 2 * theta * fo;
                matrix[i, i + 1] -= theta * fo * (i == 0 ? 2 : 1);
                if (i > 0)
                {
                    matrix[i, i - 1] -= theta * fo;
                }
                else
                {
                    right[i] += theta * fo * 2 * fluxRise!.Value;
                }
            }

            now = Solve(matrix, right);
        }

        return now;
    }

    private static double[] Solve(double[,] a, double[] b)
    {
        var n = b.Length;
        for (var i = 1; i < n; i++)
        {
            var f = a[i, i - 1] / a[i - 1, i - 1];
            a[i, i] -= f * a[i - 1, i];
            b[i] -= f * b[i - 1];
        }

        for (var i = n - 1; i >= 0; i--)
        {
            b[i] = (b[i] - (i + 1 < n ? a[i, i + 1] * b[i + 1] : 0)) / a[i, i];
        }

        return b;
    }
}
