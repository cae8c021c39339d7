using System.Globalization;

namespace Coldpeel.Web.Layout;

/// <summary>Days, spans and sizes in words, the same on every machine.</summary>
internal static class Say
{
    /// <summary>"Fri 21 May 2027".</summary>
    public static string Day(DateOnly day) => day.ToString("ddd d MMM yyyy", CultureInfo.InvariantCulture);

    /// <summary>"today", "in 3 days", "2 days ago".</summary>
    public static string Left(int days) =>
        days switch
        {
            0 => "today",
            1 => "tomorrow",
            -1 => "yesterday",
            > 1 => Of($"in {days} days"),
            _ => Of($"{-days} days ago"),
        };

    /// <summary>"2 h 05 min", "4 min 20 s", "35 s".</summary>
    public static string Span(int seconds) =>
        seconds >= 3600 ? Of($"{seconds / 3600} h {seconds / 60 % 60:00} min")
        : seconds >= 60 ? Of($"{seconds / 60} min{(seconds % 60 == 0 ? "" : Of($" {seconds % 60:00} s"))}")
        : Of($"{seconds} s");

    /// <summary>"1 sheet", "3 sheets".</summary>
    public static string Count(int count, string one, string many) => Of($"{count} {(count == 1 ? one : many)}");

    /// <summary>"840 bytes", "12 kB", "3.4 MB".</summary>
    public static string Size(long bytes) =>
        bytes >= 1_000_000 ? Of($"{bytes / 1e6:0.#} MB")
        : bytes >= 1000 ? Of($"{bytes / 1000} kB")
        : Of($"{bytes} bytes");

    /// <summary>Millimetres to a tenth, without the unit.</summary>
    public static string Mm(double mm) => mm.ToString("0.#", CultureInfo.InvariantCulture);

    /// <summary>A count or an amount, without zeros at its end.</summary>
    public static string Amount(decimal amount) => amount.ToString("0.###", CultureInfo.InvariantCulture);

    /// <summary>A name as one step of an address.</summary>
    public static string Step(string name) => Uri.EscapeDataString(name);

    private static string Of(FormattableString text) => FormattableString.Invariant(text);
}
