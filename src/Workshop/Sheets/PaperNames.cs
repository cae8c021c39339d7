using Coldpeel.Craft.Measures;

namespace Coldpeel.Workshop.Sheets;

/// <summary>Names of paper sizes.</summary>
public static class PaperNames
{
    // ISO 216, A series, in mm.
    private static readonly (string Name, int Short, int Long)[] Known =
    [
        ("A2", 420, 594),
        ("A3", 297, 420),
        ("A4", 210, 297),
        ("A5", 148, 210),
    ];

    /// <summary>"A4" for 210 × 297 mm either way up (ISO 216); other sizes are named by their millimetres.</summary>
    public static string Of(Length width, Length height)
    {
        var (w, h) = (width.InMillimetres, height.InMillimetres);
        var found = Known.FirstOrDefault(k => k.Short == Math.Min(w, h) && k.Long == Math.Max(w, h)).Name;
        return found ?? FormattableString.Invariant($"{w:0.#} × {h:0.#} mm");
    }
}
