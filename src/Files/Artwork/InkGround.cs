using System.Runtime.InteropServices;
using SkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>White ink as it builds up in painting order: what prints is united, what covers without printing is cut out.</summary>
/// <remarks>Kept as islands whose boxes do not meet, so that a page of many letters costs no more than its letters.</remarks>
/// <param name="work">What joining may still cost.</param>
internal sealed class InkGround(InkWork work)
{
    private List<(SKPath Path, SKRect Box)> _islands = [];

    /// <summary>All that prints; boxes do not meet, so even-odd over all is even-odd over each.</summary>
    public IEnumerable<SKPath> Islands => _islands.Select(i => i.Path);

    /// <summary>Whether the outlines could be joined; when not, the ground is not to be used.</summary>
    public bool Unite(SKPath path)
    {
        var joined = path;
        if (!Spend(path))
        {
            return false;
        }

        joined = path.Simplify();
        if (joined is null)
        {
            return false;
        }

        var box = joined.TightBounds;
        if (box.IsEmpty || joined.IsEmpty)
        {
            return true;
        }

        if (!work.Look(_islands.Count))
        {
            return false;
        }

        if (!MeetsAny(box))
        {
            _islands.Add((joined, box));
            return true;
        }

        var apart = new List<(SKPath, SKRect)>();
        foreach (var island in _islands)
        {
            if (!Meets(island.Box, box))
            {
                apart.Add(island);
                continue;
            }

            if (!Spend(island.Path) || !Spend(joined) || island.Path.Op(joined, SKPathOp.Union) is not { } union)
            {
                return false;
            }

            joined = union;
        }

        _islands = [.. apart, (joined, joined.TightBounds)];
        return Settle();
    }

    /// <summary>Cuts a shape out of what prints so far.</summary>
    public bool Cut(SKPath path)
    {
        var box = path.TightBounds;
        if (!work.Look(_islands.Count))
        {
            return false;
        }

        if (!MeetsAny(box))
        {
            return true;
        }

        var left = new List<(SKPath, SKRect)>();
        foreach (var island in _islands)
        {
            if (!Meets(island.Box, box))
            {
                left.Add(island);
                continue;
            }

            if (!Spend(island.Path) || !Spend(path) || island.Path.Op(path, SKPathOp.Difference) is not { } rest)
            {
                return false;
            }

            if (!rest.IsEmpty)
            {
                left.Add((rest, rest.TightBounds));
            }
        }

        _islands = left;
        return true;
    }

    /// <summary>A union may have grown a box that now meets another island: those are united as well.</summary>
    private bool Settle()
    {
        for (var i = 0; i < _islands.Count - 1; i++)
        {
            if (!work.Look(1))
            {
                return false;
            }

            var (path, box) = _islands[^1];
            if (!Meets(_islands[i].Box, box))
            {
                continue;
            }

            if (!Spend(path) || !Spend(_islands[i].Path) || _islands[i].Path.Op(path, SKPathOp.Union) is not { } union)
            {
                return false;
            }

            _islands.RemoveAt(i);
            _islands[^1] = (union, union.TightBounds);
            i = -1;
        }

        return true;
    }

    // Every shape is held against every island: asked millions of times on a page of many.
    private bool MeetsAny(SKRect box)
    {
        foreach (ref readonly var island in CollectionsMarshal.AsSpan(_islands))
        {
            if (Meets(island.Box, box))
            {
                return true;
            }
        }

        return false;
    }

    private bool Spend(SKPath path) => work.Join(path.VerbCount);

    private static bool Meets(SKRect a, SKRect b) =>
        a.Left <= b.Right && b.Left <= a.Right && a.Top <= b.Bottom && b.Top <= a.Bottom;
}
