using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>The boxes of what lies on one sheet, in arrays of one coordinate each, so that eight are tested at once.</summary>
internal sealed class SheetSlots
{
    private readonly int[] _copy;
    private readonly float[] _left;
    private readonly float[] _top;
    private readonly float[] _right;
    private readonly float[] _bottom;

    public SheetSlots(int most)
    {
        var padded = (most + Contour.Lanes) / Contour.Lanes * Contour.Lanes;
        _copy = new int[padded];
        (_left, _top, _right, _bottom) = (new float[padded], new float[padded], new float[padded], new float[padded]);
        _left.AsSpan().Fill(float.NaN);
    }

    public int Count { get; private set; }

    public int Copy(int slot) => _copy[slot];

    public int[] ToArray() => _copy[..Count];

    public int Add(int copy, Contour contour, double x, double y)
    {
        var slot = Count++;
        _copy[slot] = copy;
        (_left[slot], _right[slot]) = ((float)(x + contour.Left), (float)(x + contour.Right));
        (_top[slot], _bottom[slot]) = ((float)(y + contour.Top), (float)(y + contour.Bottom));
        return slot;
    }

    /// <summary>Frees a slot; the last one moves there. The copy that moved, or −1.</summary>
    public int Remove(int slot)
    {
        var last = --Count;
        _copy[slot] = _copy[last];
        (_left[slot], _top[slot]) = (_left[last], _top[last]);
        (_right[slot], _bottom[slot]) = (_right[last], _bottom[last]);
        _left[last] = float.NaN;
        return slot == last ? -1 : _copy[slot];
    }

    /// <summary>Of eight slots from <paramref name="first"/>, a bit for each whose box meets the given one.</summary>
    public uint Meeting(int first, float left, float top, float right, float bottom)
    {
        var k = (nuint)first;
        var meet =
            Vector256.LessThan(Load(_left, k), Vector256.Create(right))
            & Vector256.GreaterThan(Load(_right, k), Vector256.Create(left))
            & Vector256.LessThan(Load(_top, k), Vector256.Create(bottom))
            & Vector256.GreaterThan(Load(_bottom, k), Vector256.Create(top));
        return Vector256.ExtractMostSignificantBits(meet);
    }

    public void CopyFrom(SheetSlots other)
    {
        Count = other.Count;
        other._copy.CopyTo(_copy, 0);
        other._left.CopyTo(_left, 0);
        other._top.CopyTo(_top, 0);
        other._right.CopyTo(_right, 0);
        other._bottom.CopyTo(_bottom, 0);
    }

    private static Vector256<float> Load(float[] from, nuint at) =>
        Vector256.LoadUnsafe(ref MemoryMarshal.GetArrayDataReference(from), at);
}
