using Coldpeel.Craft.Press.Day;

namespace Coldpeel.Quality;

/// <summary>
/// A bench without a plan: each hand has a large press of its own and takes sheet by sheet, item by item, from bond to inspection, waiting out
/// every cooling and set-point change.
/// </summary>
internal static class NaiveBench
{
    /// <summary>When the last hand is done, in seconds from the day's now.</summary>
    public static int Seconds(DayProblem day)
    {
        var presses = day.Presses.OrderByDescending(p => (long)p.PlateW * p.PlateH).Take(day.Hands).ToArray();
        var free = presses.Select(p => (Second: Math.Max(p.FreeAt, day.Now), Temp: p.SetpointC)).ToArray();
        var bonded = new Dictionary<string, int>();
        var done = new Dictionary<string, int>();
        foreach (var p in day.Placements)
        {
            // Whoever is free first takes the next item, and bonds its sheet before it when nobody has.
            var hand = Enumerable.Range(0, free.Length).MinBy(h => free[h].Second);
            var (now, temp) = free[hand];
            if (day.Sheets.FirstOrDefault(s => s.Id == p.Sheet) is { } sheet)
            {
                if (!bonded.TryGetValue(sheet.Id, out var ready))
                {
                    now = Math.Max(now + SetUp(day, temp, sheet.TempC), sheet.AvailableAt);
                    now += sheet.Load + sheet.Press + sheet.Peel;
                    (temp, ready) = (sheet.TempC, now);
                    bonded[sheet.Id] = ready;
                }

                now = Math.Max(now, ready) + sheet.Trim;
            }

            now = p.After is { } before ? Math.Max(now, done[before]) : now;
            now += SetUp(day, temp, p.TempC) + p.Load + p.Press + p.Lift + p.Cool + p.Peel;
            now += p.FinishLoad + p.FinishPress + p.Unload + p.Inspect;
            free[hand] = (now, p.TempC);
            done[p.Id] = now;
        }

        return free.Max(f => f.Second) - day.Now;
    }

    private static int SetUp(DayProblem day, int from, int to) =>
        (int)Math.Ceiling(Math.Abs(to - from) * 60 / (to > from ? day.HeatCPerMin : day.CoolCPerMin));
}
