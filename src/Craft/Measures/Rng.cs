namespace Coldpeel.Craft.Measures;

/// <summary>A source of chance with a sequence of its own: the same seed gives the same numbers on every machine and runtime.</summary>
/// <remarks>
/// The generator is xoshiro256** seeded by SplitMix64 (Blackman and Vigna, "Scrambled linear pseudorandom number
/// generators", ACM TOMS 47(4), 2021; public domain reference). Not for secrets. Not safe to share between threads:
/// give each worker its own by <see cref="Split"/>.
/// </remarks>
public sealed class Rng
{
    private ulong _a;
    private ulong _b;
    private ulong _c;
    private ulong _d;

    /// <summary>A generator whose whole sequence follows from <paramref name="seed"/>.</summary>
    public Rng(ulong seed)
    {
        _a = SplitMix(ref seed);
        _b = SplitMix(ref seed);
        _c = SplitMix(ref seed);
        _d = SplitMix(ref seed);
    }

    /// <summary>The next 64 random bits.</summary>
    public ulong Bits()
    {
        unchecked
        {
            var result = ulong.RotateLeft(_b * 5, 7) * 9;
            var t = _b << 17;
            _c ^= _a;
            _d ^= _b;
            _b ^= _c;
            _a ^= _d;
            _c ^= t;
            _d = ulong.RotateLeft(_d, 45);
            return result;
        }
    }

    /// <summary>A number in [0, 1), with 53 random bits.</summary>
    public double Unit() => (Bits() >> 11) * (1.0 / (1UL << 53));

    /// <summary>A whole number in [0, <paramref name="below"/>), every one equally likely but for a bias under 2^-32.</summary>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="below"/> is not above zero.</exception>
    public int Below(int below) => unchecked((int)(((Bits() >> 32) * (ulong)Need.Positive(below)) >> 32));

    /// <summary>A number in [<paramref name="from"/>, <paramref name="to"/>).</summary>
    public double Between(double from, double to) => from + ((to - from) * Unit());

    /// <summary>Puts a list into a random order, in place (Fisher and Yates).</summary>
    public void Shuffle<T>(Span<T> items)
    {
        for (var i = items.Length - 1; i > 0; i--)
        {
            var j = Below(i + 1);
            (items[i], items[j]) = (items[j], items[i]);
        }
    }

    /// <summary>A generator of its own for a worker, drawn from this one.</summary>
    public Rng Split() => new(Bits());

    private static ulong SplitMix(ref ulong state)
    {
        unchecked
        {
            state += 0x9E3779B97F4A7C15;
            var z = state;
            z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
            z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
            return z ^ (z >> 31);
        }
    }
}
