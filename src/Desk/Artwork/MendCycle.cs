using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Desk.Artwork;

/// <summary>Makes the mends of a plane one after another, over and over until none has anything left to do.</summary>
/// <remarks>A mend may bring what another one mends: an opened gap cuts off a speck, a thickened stroke closes a pinhole.</remarks>
internal sealed class MendCycle
{
    private const int MostRounds = 4;

    private readonly ProcessLimits _limits;
    private readonly double? _sourceDpi;
    private readonly IReadOnlyList<BoxMm> _apart;
    private readonly Dictionary<Mend, Sum> _sums = [];

    private MendCycle(ProcessLimits limits, double? sourceDpi, IReadOnlyList<BoxMm> apart) =>
        (_limits, _sourceDpi, _apart) = (limits, sourceDpi, apart);

    /// <summary>What one mend did in all rounds.</summary>
    /// <param name="InkMm2">Toner before it was first made, in mm².</param>
    internal sealed record Sum(double InkMm2)
    {
        public List<BoxMm> At { get; } = [];

        public double AddedMm2 { get; set; }

        public double RemovedMm2 { get; set; }
    }

    /// <summary>The plane after all rounds, what each mend did, and how many gaps could not be opened beside their strokes.</summary>
    internal sealed record Cycled(WhitePlane Plane, IReadOnlyDictionary<Mend, Sum> Sums, int StillNarrow);

    /// <summary>Mends a plane.</summary>
    /// <param name="mends">In the order in which they are made.</param>
    /// <param name="plane">The plane, left as it is.</param>
    /// <param name="limits">The limits it is mended to.</param>
    /// <param name="sourceDpi">As for <see cref="SurvivalCheck.Check"/>.</param>
    /// <param name="apart">As for <see cref="SurvivalCheck.Check"/>.</param>
    public static Cycled Run(
        ImmutableArray<Mend> mends,
        WhitePlane plane,
        ProcessLimits limits,
        double? sourceDpi,
        IReadOnlyList<BoxMm> apart
    )
    {
        var cycle = new MendCycle(limits, sourceDpi, apart);
        var (now, still) = (plane, 0);
        var both = mends.Contains(Mend.Thicken) && mends.Contains(Mend.OpenGaps);
        for (var round = 0; round < MostRounds; round++)
        {
            var before = now;
            foreach (var mend in mends)
            {
                (now, still) =
                    both && mend == Mend.Thicken ? cycle.Both(now)
                    : both && mend == Mend.OpenGaps ? (now, still)
                    : (cycle.One(mend, now), still);
            }

            if (mends.Length == 1 || before.Coverage.AsSpan().SequenceEqual(now.Coverage))
            {
                break;
            }
        }

        // What the last mend left over goes with these two, which bring nothing new.
        foreach (var mend in mends.Where(m => mends.Length > 1 && m is (Mend.DropSpecks or Mend.FillPinholes)))
        {
            now = cycle.One(mend, now);
        }

        return new(now, cycle._sums, still);
    }

    private WhitePlane One(Mend mend, WhitePlane plane)
    {
        var sum = SumOf(mend, plane);
        var mended = Mends.Apply(mend, plane, _limits, _sourceDpi, _apart);
        Add(sum, mended.At, mend);
        (sum.AddedMm2, sum.RemovedMm2) = (sum.AddedMm2 + mended.AddedMm2, sum.RemovedMm2 + mended.RemovedMm2);
        return mended.Plane;
    }

    private (WhitePlane Plane, int StillNarrow) Both(WhitePlane plane)
    {
        var (strokes, gaps) = (SumOf(Mend.Thicken, plane), SumOf(Mend.OpenGaps, plane));
        var balanced = StrokesAndGaps.Balance(plane, _limits, _sourceDpi, _apart);
        Add(strokes, balanced.Strokes, Mend.Thicken);
        Add(gaps, balanced.Gaps, Mend.OpenGaps);
        var (added, removed) = PlaneChange.Between(plane, balanced.Plane);
        (strokes.AddedMm2, gaps.RemovedMm2) = (strokes.AddedMm2 + added, gaps.RemovedMm2 + removed);
        return (balanced.Plane, balanced.StillNarrow);
    }

    private Sum SumOf(Mend mend, WhitePlane plane)
    {
        if (!_sums.TryGetValue(mend, out var sum))
        {
            _sums.Add(mend, sum = new(Ink.AreaMm2(plane)));
        }

        return sum;
    }

    private void Add(Sum sum, IEnumerable<BoxMm> boxes, Mend mend)
    {
        var limit = mend == Mend.Thicken ? _limits.LineMm : _limits.GapMm;
        var told = sum.At.Count;
        sum.At.AddRange(boxes.Where(b => !sum.At.Take(told).Any(a => a.Grow(limit / 2).Contains(b))).ToArray());
    }
}
