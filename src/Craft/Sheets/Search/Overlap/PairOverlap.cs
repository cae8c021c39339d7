using System.Numerics;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace Coldpeel.Craft.Sheets.Search.Overlap;

/// <summary>Whether two contours overlap, and how badly.</summary>
/// <remarks>
/// That they overlap is told exactly: by circles inside both that meet, by crossing edges, or by one lying in the other. How badly is a
/// figure to rank moves by: over all pairs of poles the depth by which they meet times the smaller radius, where depths that fade out
/// below zero still count a little, so that every move apart lowers it (Gardeyn et al., arXiv 2509.13329, section on overlap proxies).
/// Vectors are eight floats wide and never fused, so that every machine finds the same figure.
/// </remarks>
internal static class PairOverlap
{
    private const nuint LastBit = 63;

    /// <summary>Zero when they do not overlap, else a figure above zero.</summary>
    /// <param name="a">One contour.</param>
    /// <param name="b">The other.</param>
    /// <param name="dx">How far b's corner lies along from a's, in mm.</param>
    /// <param name="dy">How far across.</param>
    /// <param name="enough">Once the figure is sure to be above this, any figure above it will do.</param>
    public static float Of(Contour a, Contour b, float dx, float dy, float enough = float.PositiveInfinity)
    {
        unchecked
        {
            var left = MathF.Max(a.Left, b.Left + dx);
            var right = MathF.Min(a.Right, b.Right + dx);
            var top = MathF.Max(a.Top, b.Top + dy);
            var bottom = MathF.Min(a.Bottom, b.Bottom + dy);
            if (left >= right || top >= bottom)
            {
                return 0;
            }

            // Most neighbours do not overlap: how badly is only worked out for those that do.
            if (
                !Meet(a, b, dx, dy, left, top, right, bottom)
                && !Crosses(a, b, dx, dy, left, top, right, bottom)
                && !Holds(a, b, dx, dy)
                && !Holds(b, a, -dx, -dy)
            )
            {
                return 0;
            }

            var soft = 0.01f * MathF.Max(a.Diameter, b.Diameter);
            var (vSoft, vSquare, vTwice) = (
                Vector256.Create(soft),
                Vector256.Create(soft * soft),
                Vector256.Create(2 * soft)
            );
            var sum = Vector256<float>.Zero;
            var weight = a.Weight * b.Weight;
            var most = enough / weight * (enough / weight);
            ref var bx = ref MemoryMarshal.GetArrayDataReference(b.PoleX);
            ref var by = ref MemoryMarshal.GetArrayDataReference(b.PoleY);
            ref var br = ref MemoryMarshal.GetArrayDataReference(b.PoleR);
            for (var i = 0; i < a.Poles; i++)
            {
                var (x, y, r) = (
                    Vector256.Create(a.PoleX[i] - dx),
                    Vector256.Create(a.PoleY[i] - dy),
                    Vector256.Create(a.PoleR[i])
                );
                for (nuint k = 0; k < (nuint)b.PoleX.Length; k += Contour.Lanes)
                {
                    var ux = Vector256.LoadUnsafe(ref bx, k) - x;
                    var uy = Vector256.LoadUnsafe(ref by, k) - y;
                    var radius = Vector256.LoadUnsafe(ref br, k);
                    var depth = r + radius - Vector256.Sqrt((ux * ux) + (uy * uy));
                    var faded = vSquare / (vTwice - depth);
                    var counted = Vector256.ConditionalSelect(Vector256.GreaterThanOrEqual(depth, vSoft), depth, faded);
                    sum += counted * Vector256.MinNative(r, radius);
                }

                // The largest poles come first and every pair only adds: most places are known to be bad by a few of them. Squares are
                // compared: a root would wait for the sum every time.
                if ((i & 3) == 3 && Sum(sum) > most)
                {
                    break;
                }
            }

            return (MathF.Sqrt(Sum(sum)) * weight) + 1e-6f;
        }
    }

    // Halves first: one sum of four lanes in place of two. The same order on every machine.
    private static float Sum(Vector256<float> lanes) => Vector128.Sum(lanes.GetLower() + lanes.GetUpper());

    /// <summary>Whether a circle inside one meets a circle inside the other.</summary>
    /// <remarks>They can only where both boxes are: of neighbours that hardly touch, most circles are never looked at.</remarks>
    private static bool Meet(Contour a, Contour b, float dx, float dy, float left, float top, float right, float bottom)
    {
        unchecked
        {
            ref var ax = ref MemoryMarshal.GetArrayDataReference(a.PoleX);
            ref var ay = ref MemoryMarshal.GetArrayDataReference(a.PoleY);
            ref var ar = ref MemoryMarshal.GetArrayDataReference(a.PoleR);
            var (vLeft, vTop, vRight, vBottom) = (
                Vector256.Create(left),
                Vector256.Create(top),
                Vector256.Create(right),
                Vector256.Create(bottom)
            );
            for (nuint group = 0; group < (nuint)a.PoleX.Length; group += Contour.Lanes)
            {
                var (px, py) = (Vector256.LoadUnsafe(ref ax, group), Vector256.LoadUnsafe(ref ay, group));
                var pr = Vector256.LoadUnsafe(ref ar, group);
                var near =
                    Vector256.GreaterThan(px + pr, vLeft)
                    & Vector256.LessThan(px - pr, vRight)
                    & Vector256.GreaterThan(py + pr, vTop)
                    & Vector256.LessThan(py - pr, vBottom);
                var bits = Vector256.ExtractMostSignificantBits(near);
                while (bits != 0)
                {
                    var i = (int)group + BitOperations.TrailingZeroCount(bits);
                    bits &= bits - 1;
                    if (MeetsAny(b, a.PoleX[i] - dx, a.PoleY[i] - dy, a.PoleR[i]))
                    {
                        return true;
                    }
                }
            }

            return false;
        }
    }

    private static bool MeetsAny(Contour b, float x, float y, float r)
    {
        unchecked
        {
            var (vx, vy, vr) = (Vector256.Create(x), Vector256.Create(y), Vector256.Create(r));
            ref var bx = ref MemoryMarshal.GetArrayDataReference(b.PoleX);
            ref var by = ref MemoryMarshal.GetArrayDataReference(b.PoleY);
            ref var br = ref MemoryMarshal.GetArrayDataReference(b.PoleR);
            var meet = Vector256<float>.Zero;
            for (nuint k = 0; k < (nuint)b.PoleX.Length; k += Contour.Lanes)
            {
                var ux = Vector256.LoadUnsafe(ref bx, k) - vx;
                var uy = Vector256.LoadUnsafe(ref by, k) - vy;
                var reach = vr + Vector256.LoadUnsafe(ref br, k);
                meet |= Vector256.LessThan((ux * ux) + (uy * uy), reach * reach);
            }

            return meet != Vector256<float>.Zero;
        }
    }

    /// <summary>Whether some edges cross or touch.</summary>
    private static bool Crosses(
        Contour a,
        Contour b,
        float dx,
        float dy,
        float left,
        float top,
        float right,
        float bottom
    )
    {
        unchecked
        {
            var (vLeft, vTop, vRight, vBottom) = (
                Vector256.Create(left),
                Vector256.Create(top),
                Vector256.Create(right),
                Vector256.Create(bottom)
            );
            var facing = Facing(b, left - dx, top - dy, right - dx, bottom - dy);
            if (facing == 0)
            {
                return false;
            }

            ref var sx = ref MemoryMarshal.GetArrayDataReference(a.StartX);
            ref var sy = ref MemoryMarshal.GetArrayDataReference(a.StartY);
            ref var ex = ref MemoryMarshal.GetArrayDataReference(a.EndX);
            ref var ey = ref MemoryMarshal.GetArrayDataReference(a.EndY);
            for (nuint k = 0; k < (nuint)a.StartX.Length; k += Contour.Lanes)
            {
                var (x1, x2) = (Vector256.LoadUnsafe(ref sx, k), Vector256.LoadUnsafe(ref ex, k));
                var (y1, y2) = (Vector256.LoadUnsafe(ref sy, k), Vector256.LoadUnsafe(ref ey, k));
                var near =
                    Vector256.LessThanOrEqual(Vector256.MinNative(x1, x2), vRight)
                    & Vector256.GreaterThanOrEqual(Vector256.MaxNative(x1, x2), vLeft)
                    & Vector256.LessThanOrEqual(Vector256.MinNative(y1, y2), vBottom)
                    & Vector256.GreaterThanOrEqual(Vector256.MaxNative(y1, y2), vTop);
                var bits = Vector256.ExtractMostSignificantBits(near);
                while (bits != 0)
                {
                    var i = (int)k + BitOperations.TrailingZeroCount(bits);
                    bits &= bits - 1;
                    if (CrossesAny(b, facing, a.StartX[i] - dx, a.StartY[i] - dy, a.EndX[i] - dx, a.EndY[i] - dy))
                    {
                        return true;
                    }
                }
            }

            return false;
        }
    }

    // Which vectors of edges come near a box: a bit for each of the first, the last bit for all that follow.
    private static ulong Facing(Contour b, float left, float top, float right, float bottom)
    {
        unchecked
        {
            // What is rounded differently once shifted counts as near.
            var slack = 1e-5f * (MathF.Abs(left) + MathF.Abs(top) + MathF.Abs(right) + MathF.Abs(bottom));
            var (vLeft, vTop, vRight, vBottom) = (
                Vector256.Create(left - slack),
                Vector256.Create(top - slack),
                Vector256.Create(right + slack),
                Vector256.Create(bottom + slack)
            );
            ref var sx = ref MemoryMarshal.GetArrayDataReference(b.StartX);
            ref var sy = ref MemoryMarshal.GetArrayDataReference(b.StartY);
            ref var ex = ref MemoryMarshal.GetArrayDataReference(b.EndX);
            ref var ey = ref MemoryMarshal.GetArrayDataReference(b.EndY);
            var facing = 0UL;
            for (nuint k = 0; k < (nuint)b.StartX.Length; k += Contour.Lanes)
            {
                var (x1, x2) = (Vector256.LoadUnsafe(ref sx, k), Vector256.LoadUnsafe(ref ex, k));
                var (y1, y2) = (Vector256.LoadUnsafe(ref sy, k), Vector256.LoadUnsafe(ref ey, k));
                var near =
                    Vector256.LessThanOrEqual(Vector256.MinNative(x1, x2), vRight)
                    & Vector256.GreaterThanOrEqual(Vector256.MaxNative(x1, x2), vLeft)
                    & Vector256.LessThanOrEqual(Vector256.MinNative(y1, y2), vBottom)
                    & Vector256.GreaterThanOrEqual(Vector256.MaxNative(y1, y2), vTop);
                facing |= near == Vector256<float>.Zero ? 0 : 1UL << (int)Math.Min(k / Contour.Lanes, LastBit);
            }

            return facing;
        }
    }

    private static bool CrossesAny(Contour b, ulong facing, float px, float py, float qx, float qy)
    {
        unchecked
        {
            var (vpx, vpy) = (Vector256.Create(px), Vector256.Create(py));
            var (vqx, vqy) = (Vector256.Create(qx), Vector256.Create(qy));
            var (ux, uy) = (vqx - vpx, vqy - vpy);
            var (minX, maxX) = (Vector256.Create(MathF.Min(px, qx)), Vector256.Create(MathF.Max(px, qx)));
            var (minY, maxY) = (Vector256.Create(MathF.Min(py, qy)), Vector256.Create(MathF.Max(py, qy)));
            ref var sx = ref MemoryMarshal.GetArrayDataReference(b.StartX);
            ref var sy = ref MemoryMarshal.GetArrayDataReference(b.StartY);
            ref var ex = ref MemoryMarshal.GetArrayDataReference(b.EndX);
            ref var ey = ref MemoryMarshal.GetArrayDataReference(b.EndY);
            for (nuint k = 0; k < (nuint)b.StartX.Length; k += Contour.Lanes)
            {
                if ((facing >> (int)Math.Min(k / Contour.Lanes, LastBit) & 1) == 0)
                {
                    continue;
                }

                var (x1, x2) = (Vector256.LoadUnsafe(ref sx, k), Vector256.LoadUnsafe(ref ex, k));
                var (y1, y2) = (Vector256.LoadUnsafe(ref sy, k), Vector256.LoadUnsafe(ref ey, k));
                var near =
                    Vector256.LessThanOrEqual(Vector256.MinNative(x1, x2), maxX)
                    & Vector256.GreaterThanOrEqual(Vector256.MaxNative(x1, x2), minX)
                    & Vector256.LessThanOrEqual(Vector256.MinNative(y1, y2), maxY)
                    & Vector256.GreaterThanOrEqual(Vector256.MaxNative(y1, y2), minY);
                if (near == Vector256<float>.Zero)
                {
                    continue;
                }

                // Each segment's ends lie on both sides of the other's line, or on it.
                var d1 = (ux * (y1 - vpy)) - (uy * (x1 - vpx));
                var d2 = (ux * (y2 - vpy)) - (uy * (x2 - vpx));
                var (wx, wy) = (x2 - x1, y2 - y1);
                var d3 = (wx * (vpy - y1)) - (wy * (vpx - x1));
                var d4 = (wx * (vqy - y1)) - (wy * (vqx - x1));
                var cross =
                    near
                    & Vector256.LessThanOrEqual(d1 * d2, Vector256<float>.Zero)
                    & Vector256.LessThanOrEqual(d3 * d4, Vector256<float>.Zero);
                if (cross != Vector256<float>.Zero)
                {
                    return true;
                }
            }

            return false;
        }
    }

    /// <summary>Whether the middle of b's largest pole lies in a.</summary>
    private static bool Holds(Contour a, Contour b, float dx, float dy)
    {
        unchecked
        {
            var (x, y) = (b.PoleX[0] + dx, b.PoleY[0] + dy);
            if (x < a.Left || x > a.Right || y < a.Top || y > a.Bottom)
            {
                return false;
            }

            var (vx, vy) = (Vector256.Create(x), Vector256.Create(y));
            ref var sx = ref MemoryMarshal.GetArrayDataReference(a.StartX);
            ref var sy = ref MemoryMarshal.GetArrayDataReference(a.StartY);
            ref var ex = ref MemoryMarshal.GetArrayDataReference(a.EndX);
            ref var ey = ref MemoryMarshal.GetArrayDataReference(a.EndY);
            var crossings = 0;
            for (nuint k = 0; k < (nuint)a.StartX.Length; k += Contour.Lanes)
            {
                var (x1, x2) = (Vector256.LoadUnsafe(ref sx, k), Vector256.LoadUnsafe(ref ex, k));
                var (y1, y2) = (Vector256.LoadUnsafe(ref sy, k), Vector256.LoadUnsafe(ref ey, k));
                var across = Vector256.GreaterThan(y1, vy) ^ Vector256.GreaterThan(y2, vy);
                var right = Vector256.LessThan(vx, ((x2 - x1) * ((vy - y1) / (y2 - y1))) + x1);
                crossings += BitOperations.PopCount(Vector256.ExtractMostSignificantBits(across & right));
            }

            return (crossings & 1) != 0;
        }
    }
}
