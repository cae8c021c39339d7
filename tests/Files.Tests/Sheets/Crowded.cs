using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Files.Tests.Sheets;

/// <summary>Three A4 sheets of mixed pieces as a shop would have them: names, numbers, badges; invented.</summary>
internal static class Crowded
{
    private static readonly string[] Names =
    [
        "Anna Berg",
        "Tomás Ruiz",
        "Ivo Marsh",
        "Lena Okoye",
        "Piet van Dal",
        "Zoë Lind",
    ];

    public static ImmutableArray<PrintSheet> Sheets(int pieces, bool dots = false)
    {
        var drawing = Film.Ink(Film.PathData(Place.Data("film", "ring-and-mark.svg")));
        Design[] designs =
        [
            Round("badge", drawing, 1),
            Round("small", Film.Ink("M 0 0 L 16 0 L 16 4 L 4 4 L 4 10 L 12 10 L 12 14 L 4 14 L 4 24 L 0 24 Z"), 1),
            Film.Vector(
                "name",
                Film.Ink(
                    "M 0 0 L 46 0 L 46 2 L 0 2 Z M 0 3.4 L 20 3.4 L 20 8 L 0 8 Z M 24 3.4 L 46 3.4 L 46 8 L 24 8 Z"
                )
            ),
        ];
        if (dots)
        {
            designs = [.. designs.Select(AsDots)];
        }

        return
        [
            .. Enumerable
                .Range(1, 3)
                .Select(page => Film.Sheet(210, 297, 5, [.. Rows(designs, pieces, page)]) with { Page = page }),
        ];
    }

    /// <summary>A sheet full of small badges with gaps too narrow for any mark.</summary>
    public static PrintSheet Tight()
    {
        var badge = Film.Vector(
            "badge",
            Film.Ink("M 0 0 L 18 0 L 18 11 L 0 11 Z M 1.5 1.5 L 16.5 1.5 L 16.5 9.5 L 1.5 9.5 Z")
        );
        return Film.Sheet(
            210,
            297,
            5,
            [
                .. Enumerable
                    .Range(0, 190)
                    .Select(i =>
                        Film.Lay(badge, $"C{i + 1}", 5.5 + (i % 10 * 20), 5.5 + (i / 10 * 13.5)) with
                        {
                            ForWhom = $"Polo navy – {Names[i % Names.Length]}",
                        }
                    ),
            ]
        );
    }

    /// <summary>Two pieces on a small sheet.</summary>
    public static PrintSheet Small()
    {
        var mark = Film.Vector("mark", Film.Ink(Film.PathData(Place.Data("film", "ring-and-mark.svg"))));
        return Film.Sheet(80, 60, 4, Film.Lay(mark, "A1", 6, 6), Film.Lay(AsDots(mark), "A2", 74, 12, 90));
    }

    private static IEnumerable<LaidPiece> Rows(Design[] designs, int count, int page)
    {
        var (x, y, row, n) = (6.0, 18.0, 0.0, 0);
        while (n < count)
        {
            var d = designs[(n + page) % designs.Length];
            var turn = n % 4 == 3 ? 90 : 0;
            var box = BoxMm.Around(d.Outline.Outer.Select(p => Turn.Clockwise(turn).Of(p)));
            if (x + box.Width > 204)
            {
                (x, y, row) = (6, y + row + 4, 0);
            }

            if (y + box.Height > 291)
            {
                yield break;
            }

            n++;
            yield return Film.Lay(d, $"{(char)('A' + page - 1)}{n}", x - box.Left, y - box.Top, turn) with
            {
                ForWhom =
                    $"{(n % 3 == 0 ? "Softshell jacket, M" : n % 3 == 1 ? "Bag" : "Polo navy")} – {Names[n % Names.Length]}",
            };
            (x, row) = (x + box.Width + 4, Math.Max(row, box.Height));
        }
    }

    private static Design Round(string id, Coldpeel.Craft.Artwork.InkPath ink, double grow)
    {
        var plain = Film.Vector(id, ink);
        var box = plain.Outline.Box.Grow(grow);
        var (cx, cy, rx, ry) = (
            (box.Left + box.Right) / 2,
            (box.Top + box.Bottom) / 2,
            box.Width * 0.62,
            box.Height * 0.62
        );
        return plain with
        {
            Outline = new(
                [
                    .. Enumerable
                        .Range(0, 60)
                        .Select(i => new PointMm(
                            cx + (rx * Math.Cos(i * Math.PI / 30)),
                            cy + (ry * Math.Sin(i * Math.PI / 30))
                        )),
                ],
                []
            ),
        };
    }

    public static Design AsDots(Design d)
    {
        var box = d.Outline.Box;
        var (w, h) = ((int)(box.Right * Film.DotsPerMm), (int)(box.Bottom * Film.DotsPerMm));
        var dots = new byte[w * h];
        for (var i = 0; i < dots.Length; i++)
        {
            var (x, y) = ((i % w) - (w / 2.0), (i / w) - (h / 2.0));
            var inside = i % w > box.Left * Film.DotsPerMm && i / w > box.Top * Film.DotsPerMm;
            dots[i] = inside && ((int)Math.Sqrt((x * x) + (y * y)) / 40 % 2) == 0 ? (byte)255 : (byte)0;
        }

        return d with
        {
            Plane = new(w, h, dots, Film.DotsPerMm),
            Vector = null,
        };
    }
}
