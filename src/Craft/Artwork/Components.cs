namespace Coldpeel.Craft.Artwork;

/// <summary>One connected part of a plane, in whole dots.</summary>
/// <param name="Area">Dots in it.</param>
/// <param name="Left">First column.</param>
/// <param name="Top">First row.</param>
/// <param name="Right">Column after the last.</param>
/// <param name="Bottom">Row after the last.</param>
public readonly record struct Component(int Area, int Left, int Top, int Right, int Bottom);

/// <summary>Connected parts of a plane: marked dots, or the ground between them.</summary>
/// <remarks>
/// Dots are held as runs along the rows, joined by union-find (as in He, Chao and Suzuki, A run-based two-scan labeling algorithm,
/// IEEE Trans. Image Processing 17(5), 2008): memory grows with the outline, not with the area.
/// </remarks>
public sealed class Components
{
    private readonly int[] _rowStart;
    private readonly List<(int Left, int Right, int Part)> _runs;

    private Components(int[] rowStart, List<(int Left, int Right, int Part)> runs, Component[] parts) =>
        (_rowStart, _runs, Parts) = (rowStart, runs, parts);

    /// <summary>The parts, in the order in which their first dots come.</summary>
    public IReadOnlyList<Component> Parts { get; }

    /// <summary>Finds the parts.</summary>
    /// <param name="marked">Row by row; marked from <paramref name="least"/> up.</param>
    /// <param name="width">Dots across.</param>
    /// <param name="height">Dots down.</param>
    /// <param name="ground">
    /// False: parts of marked dots, which meet along edges and corners (8 neighbours). True: parts of the dots that are not marked,
    /// which meet along edges only (4), so that a line of ink one dot wide keeps two grounds apart.
    /// </param>
    /// <param name="least">The least value of a marked dot, above zero.</param>
    public static Components Label(byte[] marked, int width, int height, bool ground = false, byte least = 1)
    {
        ArgumentNullException.ThrowIfNull(marked);
        ArgumentOutOfRangeException.ThrowIfZero(least);
        var (first, last) = ground ? ((byte)0, (byte)(least - 1)) : (least, byte.MaxValue);
        var rowStart = new int[height + 1];
        var runs = new List<(int Left, int Right, int Part)>();
        var parent = new List<int>();
        var reach = ground ? 0 : 1;
        for (var y = 0; y < height; y++)
        {
            rowStart[y] = runs.Count;
            var above = y == 0 ? 0 : rowStart[y - 1];
            var row = marked.AsSpan(y * width, width);
            for (var x = 0; x < width; )
            {
                var gap = row[x..].IndexOfAnyInRange(first, last);
                if (gap < 0)
                {
                    break;
                }

                var left = x + gap;
                var length = row[left..].IndexOfAnyExceptInRange(first, last);
                var right = length < 0 ? width : left + length;
                var label = -1;
                while (above < rowStart[y] && runs[above].Right + reach <= left)
                {
                    above++;
                }

                for (var k = above; k < rowStart[y] && runs[k].Left < right + reach; k++)
                {
                    var root = Root(parent, runs[k].Part);
                    if (label < 0)
                    {
                        label = root;
                    }
                    else if (root != label)
                    {
                        var (low, high) = (Math.Min(root, label), Math.Max(root, label));
                        parent[high] = low;
                        label = low;
                    }
                }

                if (label < 0)
                {
                    label = parent.Count;
                    parent.Add(label);
                }

                runs.Add((left, right, label));
                x = right;
            }
        }

        rowStart[height] = runs.Count;
        return new(rowStart, runs, Gather(rowStart, runs, parent));
    }

    /// <summary>The part that a dot belongs to, as index into <see cref="Parts"/>; −1 when it belongs to none.</summary>
    public int At(int x, int y) => RunAt(x, y)?.Part ?? -1;

    /// <summary>The run that a dot belongs to: first column, column after the last, part; null when it belongs to none.</summary>
    internal (int Left, int Right, int Part)? RunAt(int x, int y)
    {
        if (y < 0 || y >= _rowStart.Length - 1)
        {
            return null;
        }

        var (low, high) = (_rowStart[y], _rowStart[y + 1] - 1);
        while (low <= high)
        {
            var middle = (low + high) / 2;
            var run = _runs[middle];
            if (x < run.Left)
            {
                high = middle - 1;
            }
            else if (x >= run.Right)
            {
                low = middle + 1;
            }
            else
            {
                return run;
            }
        }

        return null;
    }

    /// <summary>Every run of dots: row, first column, column after the last, part.</summary>
    internal IEnumerable<(int Row, int Left, int Right, int Part)> Runs()
    {
        for (var y = 0; y < _rowStart.Length - 1; y++)
        {
            for (var k = _rowStart[y]; k < _rowStart[y + 1]; k++)
            {
                yield return (y, _runs[k].Left, _runs[k].Right, _runs[k].Part);
            }
        }
    }

    private static Component[] Gather(int[] rowStart, List<(int Left, int Right, int Part)> runs, List<int> parent)
    {
        var number = new Dictionary<int, int>();
        var parts = new List<Component>();
        for (var y = 0; y < rowStart.Length - 1; y++)
        {
            for (var k = rowStart[y]; k < rowStart[y + 1]; k++)
            {
                var (left, right, label) = runs[k];
                var root = Root(parent, label);
                if (!number.TryGetValue(root, out var part))
                {
                    part = parts.Count;
                    number.Add(root, part);
                    parts.Add(new(0, left, y, right, y + 1));
                }

                var c = parts[part];
                parts[part] = new(
                    c.Area + right - left,
                    Math.Min(c.Left, left),
                    c.Top,
                    Math.Max(c.Right, right),
                    y + 1
                );
                runs[k] = (left, right, part);
            }
        }

        return [.. parts];
    }

    private static int Root(List<int> parent, int label)
    {
        while (parent[label] != label)
        {
            parent[label] = parent[parent[label]];
            label = parent[label];
        }

        return label;
    }
}
