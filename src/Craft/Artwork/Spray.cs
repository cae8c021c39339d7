using Coldpeel.Craft.Measures;

namespace Coldpeel.Craft.Artwork;

/// <summary>Tints as scattered clusters, none smaller than the process's smallest dot: error diffusion over square cells.</summary>
/// <param name="CellMm">Side of a cell: the smallest cluster and the smallest opening.</param>
/// <param name="LineMm">Width of the neck by which two cells that meet at a corner are joined.</param>
/// <param name="DotMm">Diameter of the smallest dot.</param>
/// <param name="GapMm">Narrowest gap that stays open.</param>
/// <remarks>
/// Floyd and Steinberg (An adaptive algorithm for spatial greyscale, Proc. SID 17(2), 1976) on cells instead of dots, there and back,
/// with a shaken threshold against regular worms (Ulichney, Digital halftoning, 1987). What is passed on is the toner that really
/// prints: cut cells and necks are counted dot by dot.
/// </remarks>
public sealed record Spray(double CellMm, double LineMm, double DotMm, double GapMm)
{
    private const ulong Seed = 20230417;

    /// <summary>The spray of a process: cells whose area is that of its smallest dot, and no narrower than its line and gap.</summary>
    /// <param name="limits">What the process carries.</param>
    /// <param name="dotsPerMm">Dots in a millimetre of the printer.</param>
    public static Spray For(ProcessLimits limits, double dotsPerMm)
    {
        ArgumentNullException.ThrowIfNull(limits);
        var dot = Math.Max(limits.DotMm, limits.LineMm);
        // An opening loses a quarter disc at each corner to necks at the worst.
        var opening = Math.Sqrt(Math.PI / 4 * ((limits.GapMm * limits.GapMm) + (limits.LineMm * limits.LineMm)));
        var side = Math.Max(Math.Max(dot * Math.Sqrt(Math.PI) / 2, limits.LineMm), Math.Max(limits.GapMm, opening));
        return new(side + (ScreenCell.EdgeRoom / Need.Positive(dotsPerMm)), limits.LineMm, dot, limits.GapMm);
    }

    /// <summary>The plane with its tints sprayed, one bit a dot; what is no tint is cut at one half.</summary>
    /// <inheritdoc cref="LineScreen.Apply"/>
    public Screened Apply(WhitePlane grey, double? sourceDpi = null, ToneCurve? curve = null)
    {
        ArgumentNullException.ThrowIfNull(grey);
        var work = TintedPlane.Of(grey, sourceDpi, curve, DotMm, GapMm, 0);
        if (work.Mask is null)
        {
            return new(work.Cut, false);
        }

        new Run(
            work,
            work.Mask,
            (int)Math.Ceiling(CellMm * grey.DotsPerMm),
            (LineMm * grey.DotsPerMm / 2) + 0.75
        ).Draw();
        Clusters.Hold(work.Cut, work.Mask, DotMm, LineMm, GapMm);
        ScreenRemains.Clear(work.Cut, PlaneMaker.Cut(grey), DotMm, GapMm);
        return new(work.Cut, true);
    }

    private sealed class Run(TintedPlane work, byte[] mask, int side, double neck)
    {
        private readonly WhitePlane _plane = work.Cut;
        private readonly int _across = (work.Cut.Width + side - 1) / side;
        private readonly int _down = (work.Cut.Height + side - 1) / side;
        private readonly Rng _rng = new(Seed);

        public void Draw()
        {
            var (asked, room) = (new double[_across * _down], new int[_across * _down]);
            Each((cell, i) => (asked[cell], room[cell]) = (asked[cell] + work.Tone(i), room[cell] + 1));
            var guests = Merge(asked, room);
            var on = new bool[_across * _down];
            for (var j = 0; j < _down; j++)
            {
                var step = j % 2 == 0 ? 1 : -1;
                for (var k = 0; k < _across; k++)
                {
                    var i = step > 0 ? k : _across - 1 - k;
                    var cell = (j * _across) + i;
                    if (room[cell] > 0)
                    {
                        on[cell] = asked[cell] >= room[cell] * _rng.Between(0.35, 0.65);
                        guests.GetValueOrDefault(cell)?.ForEach(g => on[g] = on[cell]);
                        var printed = (on[cell] ? room[cell] : 0) + (j == 0 ? 0 : Necks(on, i, j, step));
                        PassOn(asked, room, i, j, step, asked[cell] - printed);
                    }
                }
            }

            Each((cell, i) => _plane.Coverage[i] = on[cell] || _plane.Coverage[i] == 1 ? (byte)255 : (byte)0);
        }

        /// <summary>What a border cuts to less than half a cell goes with its largest neighbour, so that it does not print as a sliver; tells who is whose guest.</summary>
        private Dictionary<int, List<int>> Merge(double[] asked, int[] room)
        {
            var guests = new Dictionary<int, List<int>>();
            var whole = (int[])[.. room];
            for (var cell = 0; cell < whole.Length; cell++)
            {
                if (whole[cell] == 0 || 2 * whole[cell] >= side * side)
                {
                    continue;
                }

                var (i, j) = (cell % _across, cell / _across);
                var host = new[] { (i - 1, j), (i + 1, j), (i, j - 1), (i, j + 1) }
                    .Where(n => n.Item1 >= 0 && n.Item1 < _across && n.Item2 >= 0 && n.Item2 < _down)
                    .Select(n => (n.Item2 * _across) + n.Item1)
                    .DefaultIfEmpty(cell)
                    .MaxBy(n => whole[n]);
                if (2 * whole[host] >= side * side)
                {
                    (asked[host], room[host]) = (asked[host] + asked[cell], room[host] + room[cell]);
                    (asked[cell], room[cell]) = (0, 0);
                    (guests.TryGetValue(host, out var list) ? list : guests[host] = []).Add(cell);
                }
            }

            return guests;
        }

        private void Each(Action<int, int> act)
        {
            for (var y = 0; y < _plane.Height; y++)
            {
                for (var x = 0; x < _plane.Width; x++)
                {
                    var i = (y * _plane.Width) + x;
                    if (mask[i] != 0)
                    {
                        act((y / side * _across) + (x / side), i);
                    }
                }
            }
        }

        /// <summary>The corner above and behind: when only two cells across it print, a neck joins them; tells its dots.</summary>
        private int Necks(bool[] on, int i, int j, int step)
        {
            var behind = i - step;
            if (behind < 0 || behind >= _across)
            {
                return 0;
            }

            var (here, back) = (on[(j * _across) + i], on[(j * _across) + behind]);
            var (above, aslant) = (on[((j - 1) * _across) + i], on[((j - 1) * _across) + behind]);
            return here == aslant && back == above && here != back ? Neck(on, Math.Max(i, behind) * side, j * side) : 0;
        }

        private int Neck(bool[] on, int x, int y)
        {
            var (reach, dots) = ((int)Math.Ceiling(neck), 0);
            for (var v = Math.Max(0, y - reach); v < Math.Min(_plane.Height, y + reach); v++)
            {
                for (var u = Math.Max(0, x - reach); u < Math.Min(_plane.Width, x + reach); u++)
                {
                    var (dx, dy, i) = (u + 0.5 - x, v + 0.5 - y, (v * _plane.Width) + u);
                    if (
                        (dx * dx) + (dy * dy) <= neck * neck
                        && mask[i] != 0
                        && !on[(v / side * _across) + (u / side)]
                        && _plane.Coverage[i] != 1
                    )
                    {
                        _plane.Coverage[i] = 1;
                        dots++;
                    }
                }
            }

            return dots;
        }

        private void PassOn(double[] asked, int[] room, int i, int j, int step, double rest)
        {
            Span<(int Cell, int Weight)> to = stackalloc (int, int)[4];
            var (n, sum) = (0, 0);
            foreach (
                var (di, dj, weight) in (ReadOnlySpan<(int, int, int)>)
                    [(step, 0, 7), (-step, 1, 3), (0, 1, 5), (step, 1, 1)]
            )
            {
                var cell = ((j + dj) * _across) + i + di;
                if (i + di >= 0 && i + di < _across && j + dj < _down && room[cell] > 0)
                {
                    to[n++] = (cell, weight);
                    sum += weight;
                }
            }

            foreach (var (cell, weight) in to[..n])
            {
                asked[cell] += rest * weight / sum;
            }
        }
    }
}
