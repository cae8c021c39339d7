using System.Globalization;

namespace Coldpeel.Files.Paper;

/// <summary>Days and clock times in words, the same on every machine.</summary>
internal static class Days
{
    /// <summary>"Fri 4 Dec 2026".</summary>
    public static string Say(DateOnly day) => day.ToString("ddd d MMM yyyy", CultureInfo.InvariantCulture);

    /// <summary>"08:14:20"; after midnight the hours go on: "25:10:00".</summary>
    public static string Clock(TimeOnly start, int seconds)
    {
        var s = (int)start.ToTimeSpan().TotalSeconds + seconds;
        return string.Create(CultureInfo.InvariantCulture, $"{s / 3600:00}:{s / 60 % 60:00}:{s % 60:00}");
    }

    /// <summary>"2 h 05 min", "4 min 20 s", "35 s".</summary>
    public static string Span(int seconds) =>
        seconds >= 3600 ? string.Create(CultureInfo.InvariantCulture, $"{seconds / 3600} h {seconds / 60 % 60:00} min")
        : seconds >= 60 ? string.Create(CultureInfo.InvariantCulture, $"{seconds / 60} min {seconds % 60:00} s")
        : string.Create(CultureInfo.InvariantCulture, $"{seconds} s");
}
