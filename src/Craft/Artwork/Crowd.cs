namespace Coldpeel.Craft.Artwork;

/// <summary>Counts the separate dots and holes of a plane, and stops where nobody could tell them apart any more: noise, or a ground of grains.</summary>
/// <remarks>One walk over the rows that keeps two of them, with union-find as <see cref="Components"/> has it; it ends at the first row that decides.</remarks>
public static class Crowd
{
    /// <summary>Dots or holes beyond which a plane is not looked through one by one.</summary>
    public const int Most = 20_000;

    private const byte Half = 128;

    /// <summary>Whether a plane has more than <see cref="Most"/> separate dots, or as many holes.</summary>
    public static bool Is(WhitePlane plane)
    {
        ArgumentNullException.ThrowIfNull(plane);
        return HasMore(plane, ground: false) || HasMore(plane, ground: true);
    }

    private static bool HasMore(WhitePlane plane, bool ground)
    {
        var parent = new List<int>();
        var (above, here) = (
            new List<(int Left, int Right, int Label)>(),
            new List<(int Left, int Right, int Label)>()
        );
        var reach = ground ? 0 : 1;
        var parts = 0;
        for (var y = 0; y < plane.Height; y++)
        {
            here.Clear();
            var row = plane.Coverage.AsSpan(y * plane.Width, plane.Width);
            var first = 0;
            for (var x = 0; x < row.Length; )
            {
                var gap = ground ? Low(row[x..]) : High(row[x..]);
                if (gap < 0)
                {
                    break;
                }

                var left = x + gap;
                var length = ground ? High(row[left..]) : Low(row[left..]);
                x = length < 0 ? row.Length : left + length;

                while (first < above.Count && above[first].Right + reach <= left)
                {
                    first++;
                }

                var label = -1;
                for (var k = first; k < above.Count && above[k].Left < x + reach; k++)
                {
                    var root = Root(parent, above[k].Label);
                    if (label < 0)
                    {
                        label = root;
                    }
                    else if (root != label)
                    {
                        (parent[Math.Max(root, label)], label) = (Math.Min(root, label), Math.Min(root, label));
                        parts--;
                    }
                }

                if (label < 0)
                {
                    label = parent.Count;
                    parent.Add(label);
                    parts++;
                }

                here.Add((left, x, label));
            }

            // Only what reaches into this row can still grow together.
            if (parts - here.Count > Most)
            {
                return true;
            }

            (above, here) = (here, above);
        }

        return parts > Most;
    }

    private static int High(ReadOnlySpan<byte> row) => row.IndexOfAnyInRange(Half, byte.MaxValue);

    private static int Low(ReadOnlySpan<byte> row) => row.IndexOfAnyInRange((byte)0, (byte)(Half - 1));

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
