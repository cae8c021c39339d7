using System.Globalization;
using Coldpeel.Web.Words;

namespace Coldpeel.Web.Layout;

/// <summary>A length that is typed in the reader's unit and kept in millimetres.</summary>
/// <remarks>A number field of HTML is written with a point in every language (HTML Living Standard, "valid floating-point number").</remarks>
internal static class LengthField
{
    /// <summary>Millimetres of an inch, exactly.</summary>
    public const decimal MmPerInch = 25.4m;

    // Of a design, as the lists of items have it.
    private const decimal LeastOfDesignMm = 1;
    private const decimal MostOfDesignMm = 2000;

    // An inch is told to a hundredth, below one inch to a thousandth, as on every page.
    private static int Places(decimal inches) => Math.Abs(inches) < 1 ? 3 : 2;

    private static CultureInfo Culture => CultureInfo.CurrentUICulture;

    private static CultureInfo Plain => CultureInfo.InvariantCulture;

    /// <summary>A figure in inches, with the places that every page shows.</summary>
    public static decimal Inches(decimal mm) => Math.Round(mm / MmPerInch, Places(mm / MmPerInch));

    /// <summary>The least that may be written: never less than is allowed.</summary>
    public static decimal Least(decimal mm) => Reader.Inches ? Towards(mm / MmPerInch, decimal.Ceiling) : mm;

    /// <summary>The most that may be written: never more than is allowed.</summary>
    public static decimal Most(decimal mm) => Reader.Inches ? Towards(mm / MmPerInch, decimal.Floor) : mm;

    /// <summary>Kept millimetres as the field shows them; what is no number stays as it is.</summary>
    public static string Shown(string mm) =>
        Reader.Inches && Number(mm) is { } figure ? Inches(figure).ToString("0.###", Plain) : mm;

    /// <summary>What was typed in millimetres; a field that was not touched keeps what stands, to the last digit, and what is no number stays as it is.</summary>
    /// <param name="typed">As it was typed, in the reader's unit.</param>
    /// <param name="stands">In millimetres as it stood when the form was opened; empty for nothing.</param>
    public static string Millimetres(string typed, string stands) =>
        !Reader.Inches ? typed
        : typed.Trim() == Shown(stands) ? stands
        : Number(typed) is { } inches ? Math.Round(inches * MmPerInch, 3).ToString("0.###", Plain)
        : typed;

    /// <summary>Two lengths so exact that they look alike only when they are: an inch is told to 2.5 µm, or to a quarter of that.</summary>
    /// <param name="fromMm">In millimetres, to a thousandth; empty for nothing.</param>
    /// <param name="toMm">The other.</param>
    public static (string From, string To) Apart(string fromMm, string toMm)
    {
        if (!Reader.Inches)
        {
            return (fromMm, toMm);
        }

        var (from, to) = (Exact(fromMm, "0.####"), Exact(toMm, "0.####"));
        return from != to ? (from, to) : (Exact(fromMm, "0.#####"), Exact(toMm, "0.#####"));
    }

    /// <summary>What is wrong with the length of a design, with its bounds in the reader's unit; null for nothing.</summary>
    /// <param name="label">The field, as its page calls it.</param>
    /// <param name="typed">As it was typed.</param>
    /// <param name="mm">The same in millimetres.</param>
    public static string? Wrong(string label, string typed, string mm)
    {
        var bounds = Say.With(
            BookWords.FromTo,
            Told(Least(LeastOfDesignMm)),
            Told(Most(MostOfDesignMm)),
            Say.LengthUnit
        );
        return mm.Length == 0 ? Say.With(OrderWords.LengthEmpty, label, bounds)
            : Number(mm.Replace("mm", "", StringComparison.OrdinalIgnoreCase)) is > 0 and <= MostOfDesignMm ? null
            : Say.With(OrderWords.LengthNot, label, typed, bounds);

        static string Told(decimal figure) => figure.ToString("0.###", Culture);
    }

    private static string Exact(string mm, string form) =>
        Number(mm) is { } figure ? (figure / MmPerInch).ToString(form, Culture) : mm;

    private static decimal Towards(decimal inches, Func<decimal, decimal> way)
    {
        var scale = Places(inches) == 3 ? 1000m : 100m;
        return way(inches * scale) / scale;
    }

    private static decimal? Number(string typed) =>
        decimal.TryParse(
            typed.Trim().Replace(',', '.'),
            NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign,
            Plain,
            out var number
        )
        && Math.Abs(number) < 1e9m
            ? number
            : null;
}
