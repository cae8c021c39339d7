namespace Coldpeel.Craft.Press.Heat;

/// <summary>Linear systems of a few unknowns, symmetric and positive.</summary>
internal static class SmallSystem
{
    /// <summary>The solution of a x = b by Gauss with the largest pivot; zeros where the matrix is singular.</summary>
    public static double[] Solve(double[,] a, double[] b)
    {
        var inverse = Inverse(a);
        var n = b.Length;
        var x = new double[n];
        for (var i = 0; inverse is not null && i < n; i++)
        {
            for (var j = 0; j < n; j++)
            {
                x[i] += inverse[i, j] * b[j];
            }
        }

        return x;
    }

    /// <summary>The inverse, or null when the matrix is singular.</summary>
    public static double[,]? Inverse(double[,] matrix)
    {
        var n = matrix.GetLength(0);
        var a = (double[,])matrix.Clone();
        var inverse = new double[n, n];
        for (var i = 0; i < n; i++)
        {
            inverse[i, i] = 1;
        }

        for (var c = 0; c < n; c++)
        {
            var pivot = c;
            for (var r = c + 1; r < n; r++)
            {
                pivot = Math.Abs(a[r, c]) > Math.Abs(a[pivot, c]) ? r : pivot;
            }

            if (Math.Abs(a[pivot, c]) <= 1e-14 * Math.Abs(matrix[c, c]) || a[pivot, c] == 0)
            {
                return null;
            }

            for (var j = 0; j < n; j++)
            {
                (a[c, j], a[pivot, j]) = (a[pivot, j], a[c, j]);
                (inverse[c, j], inverse[pivot, j]) = (inverse[pivot, j], inverse[c, j]);
            }

            var scale = 1 / a[c, c];
            for (var j = 0; j < n; j++)
            {
                a[c, j] *= scale;
                inverse[c, j] *= scale;
            }

            for (var r = 0; r < n; r++)
            {
                var factor = r == c ? 0 : a[r, c];
                for (var j = 0; j < n && factor != 0; j++)
                {
                    a[r, j] -= factor * a[c, j];
                    inverse[r, j] -= factor * inverse[c, j];
                }
            }
        }

        return inverse;
    }
}
