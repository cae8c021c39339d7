using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Artwork;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Artwork;

/// <summary>The picture of before and after, with its figures.</summary>
internal static class PreviewMends
{
    /// <summary>Before and after side by side, with the figures of every mend that changed something.</summary>
    public static byte[] Encode(Design before, ImmutableArray<Finding> found, MendedArtwork mended, Rgb fabric)
    {
        var changed = mended.Steps.Where(s => s.Places > 0).ToArray();
        var inPlace = changed.All(s => s.Mend != MendWord.Enlarge);
        var numbered = changed.Where(s => s.Mend is not (MendWord.Enlarge or MendWord.RemoveBox)).ToArray();
        return MendPreview.Encode(
            before.Plane,
            mended.Design.Plane,
            // Places of an enlarged design are not those of the design as it came.
            inPlace ? [.. numbered.SelectMany((s, k) => s.At.Select(box => (k + 1, box)))] : [],
            fabric,
            [
                Size(before),
                .. Kinds(found),
                .. inPlace && changed.Length > 0 ? ["amber: added; brown hatching: taken away"] : Array.Empty<string>(),
            ],
            [
                Size(mended.Design),
                .. changed.Length > 0
                    ? changed.Select(s => $"{Number(Array.IndexOf(numbered, s) + 1)}{s.Say}")
                    : ["nothing was changed"],
                .. Kinds(mended.Findings),
            ]
        );
    }

    private static string Number(int of) => of == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"{of}  ");

    private static string Size(Design d) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"{d.WidthMm:0.#} × {d.HeightMm:0.#} mm, {d.InkMm2:0.#} mm² of toner"
        );

    private static IEnumerable<string> Kinds(ImmutableArray<Finding> findings) =>
        findings.IsEmpty
            ? ["nothing found"]
            :
            [
                "found: "
                    + string.Join(
                        ", ",
                        findings.Select(f =>
                            $"{f.Kind.Replace('-', ' ')}{(f.Count > 1 ? string.Create(CultureInfo.InvariantCulture, $" ({f.Count})") : "")}"
                        )
                    ),
            ];
}
