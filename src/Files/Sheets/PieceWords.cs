using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Files.Sheets;

/// <summary>Label and owner of a piece, set as large as its shape allows, upright whatever way the piece lies.</summary>
internal sealed record PieceWords(ImmutableArray<PieceWords.Line> Lines, bool TellsAll)
{
    private const double EasyMm = 1.8;
    private const double SmallestMm = 1.25;
    private static readonly double[] LabelCapsMm = [6.5, 5.2, 4.2, 3.4, 2.8, 2.3, 1.8];

    /// <summary>One line of words.</summary>
    internal sealed record Line(string Words, double CapMm, bool Light, PointMm Baseline);

    private sealed record Block(ImmutableArray<Line> Lines, double Width, double Height);

    /// <summary>The largest setting that stays within the outline; the label alone when the rest finds no room.</summary>
    public static PieceWords Fit(LaidPiece piece)
    {
        var ring = piece.RingOnSheet();
        var inside = InsideGrid.Of(ring, 0.4);
        var forWhom = piece.ForWhom.ReplaceLineEndings(" ").Trim();
        // Words that read easily come before a large label; only then may they shrink to what can just be read.
        foreach (var smallest in (double[])[EasyMm, SmallestMm])
        {
            foreach (var cap in LabelCapsMm)
            {
                foreach (var block in Settings(piece.Label, forWhom, cap, smallest))
                {
                    if (inside.Place(block.Width, block.Height) is { } at)
                    {
                        return new(Shift(block.Lines, at), true);
                    }
                }
            }
        }

        foreach (var cap in LabelCapsMm)
        {
            var block = Stack([(piece.Label, cap, false)]);
            if (inside.Place(block.Width, block.Height) is { } at)
            {
                return new(Shift(block.Lines, at), forWhom.Length == 0);
            }
        }

        return new([], false);
    }

    public void Draw(InkLines lines)
    {
        foreach (var line in Lines)
        {
            TrimMapPdf.Write(lines, line.Words, line.CapMm, line.Baseline, line.Light);
        }
    }

    private static IEnumerable<Block> Settings(string label, string forWhom, double cap, double smallest)
    {
        if (forWhom.Length == 0)
        {
            yield return Stack([(label, cap, false)]);
            yield break;
        }

        // The label leads: words are never more than seven tenths of it.
        foreach (var small in ((double[])[2.6, EasyMm, SmallestMm]).Where(s => s >= smallest && s <= cap * 0.7))
        {
            for (var rows = 1; rows <= 4; rows++)
            {
                var wrapped = Wrap(forWhom, rows, small);
                if (wrapped.Length == rows)
                {
                    yield return Stack([(label, cap, false), .. wrapped.Select(w => (w, small, true))]);
                    yield return Beside(label, cap, wrapped, small);
                }
            }
        }
    }

    // Into so many lines that the longest is as short as can be.
    private static ImmutableArray<string> Wrap(string text, int rows, double cap)
    {
        var words = text.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        if (rows > words.Length)
        {
            return [];
        }

        var (low, high) = (words.Max(w => OutlineText.Width(w, cap, true)), OutlineText.Width(text, cap, true) + 0.1);
        for (var i = 0; i < 8 && rows > 1; i++)
        {
            var half = (low + high) / 2;
            (low, high) = Flow(words, half, cap).Length <= rows ? (low, half) : (half, high);
        }

        return Flow(words, high, cap);
    }

    private static ImmutableArray<string> Flow(string[] words, double width, double cap)
    {
        var lines = ImmutableArray.CreateBuilder<string>();
        foreach (var word in words)
        {
            var longer = lines.Count > 0 ? lines[^1] + " " + word : word;
            if (lines.Count > 0 && OutlineText.Width(longer, cap, true) <= width)
            {
                lines[^1] = longer;
            }
            else
            {
                lines.Add(word);
            }
        }

        return lines.ToImmutable();
    }

    private static Block Stack(IReadOnlyList<(string Words, double Cap, bool Light)> rows)
    {
        var width = rows.Max(r => OutlineText.Width(r.Words, r.Cap, r.Light));
        var (lines, y) = (ImmutableArray.CreateBuilder<Line>(), 0.0);
        foreach (var (words, cap, light) in rows)
        {
            y += lines.Count == 0 ? cap : cap * 1.7;
            var x = (width - OutlineText.Width(words, cap, light)) / 2;
            lines.Add(new(words, cap, light, new(x, y)));
        }

        return new(lines.ToImmutable(), width, y + (rows[^1].Light ? rows[^1].Cap * 0.3 : 0));
    }

    private static Block Beside(string label, double cap, ImmutableArray<string> rows, double small)
    {
        var words = Stack([.. rows.Select(r => (r, small, true))]);
        var height = Math.Max(cap, words.Height);
        var start = OutlineText.Width(label, cap) + (cap * 0.5);
        return new(
            [
                new(label, cap, false, new(0, (height + cap) / 2)),
                .. words.Lines.Select(l =>
                    l with
                    {
                        Baseline = new(start, l.Baseline.Y + ((height - words.Height) / 2)),
                    }
                ),
            ],
            start + words.Width,
            height
        );
    }

    private static ImmutableArray<Line> Shift(ImmutableArray<Line> lines, PointMm by) =>
        [.. lines.Select(l => l with { Baseline = l.Baseline + by })];
}
