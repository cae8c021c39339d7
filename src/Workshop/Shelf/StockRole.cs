using System.Globalization;

namespace Coldpeel.Workshop.Shelf;

/// <summary>By what an order's steps know a thing on the shelf, whatever its owner calls it.</summary>
public static class StockRole
{
    /// <summary>White toner, in grams.</summary>
    public const string Toner = "toner";

    /// <summary>How the roles of started sheets begin.</summary>
    public const string StartedBegins = "started ";

    private static readonly CultureInfo Plain = CultureInfo.InvariantCulture;

    /// <summary>Film of a paper size for all processes.</summary>
    /// <param name="paper">"A4".</param>
    public static string Film(string paper) => $"film {paper}";

    /// <summary>Film of a paper size for one process, where films differ.</summary>
    public static string Film(string paper, string process) => $"film {paper} for {process}";

    /// <summary>Adhesive sheet of a paper size.</summary>
    public static string Adhesive(string paper) => $"adhesive {paper}";

    /// <summary>An undecorated item.</summary>
    /// <param name="what">The item, as in the job: "gilet".</param>
    public static string Blank(string what) => $"blank {what}";

    /// <summary>A bonded transfer: the same print for the same process, whatever order it was made for.</summary>
    /// <param name="print">SHA-256 of what prints.</param>
    /// <param name="process">The process.</param>
    public static string Transfer(string print, string process) => $"transfer {print} {process}";

    /// <summary>What is left of a sheet.</summary>
    /// <param name="widthMm">Across.</param>
    /// <param name="heightMm">Down.</param>
    /// <param name="marginMm">Border that cannot be printed.</param>
    /// <param name="process">The process whose film it is.</param>
    public static string Started(double widthMm, double heightMm, double marginMm, string process) =>
        string.Create(Plain, $"{StartedBegins}{widthMm:0.###} {heightMm:0.###} {marginMm:0.###} {process}");

    /// <summary>Sides, border and process of a started sheet; null when the role is of something else.</summary>
    public static (double WidthMm, double HeightMm, double MarginMm, string Process)? StartedOf(string role)
    {
        ArgumentNullException.ThrowIfNull(role);
        var parts = role.Split(' ', 5);
        return
            parts.Length == 5
            && role.StartsWith(StartedBegins, StringComparison.Ordinal)
            && double.TryParse(parts[1], Plain, out var width)
            && double.TryParse(parts[2], Plain, out var height)
            && double.TryParse(parts[3], Plain, out var margin)
            ? (width, height, margin, parts[4])
            : null;
    }
}
