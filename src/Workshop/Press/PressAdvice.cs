using Coldpeel.Craft.Press.Heat;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Workshop.Press;

/// <summary>Says a press window in the words of the trade, and where there is none, what to change.</summary>
public static class PressAdvice
{
    // Set-points are tried in steps that a press's dial has.
    private const double DialC = 5;
    private const double HottestDialC = 230;

    // A window that nobody can hit is none: its end at least this many times its beginning, and as many seconds later.
    private const double Wide = 1.3;
    private const double WideS = 3;

    /// <summary>The window of the stage, with words.</summary>
    /// <param name="ask">What is asked.</param>
    /// <param name="search">How finely this window is followed; others are looked for quickly.</param>
    /// <param name="stop">Cancels.</param>
    public static WindowAnswer On(HeatWindowAsk ask, HeatSearch search, CancellationToken stop = default)
    {
        ArgumentNullException.ThrowIfNull(ask);
        var window = HeatWindows.Find(ask, search, stop);
        var stage = ask.Problem.Stages[ask.Stage].Name;
        var needs = ask.Bonded ? (Sentence)$"the glue is soft again" : $"it bonds";
        var setpoint = HeatReports.SetpointC(ask);
        if (window.Open && !Hit(window) && setpoint is { } narrowAt && Better(ask, window, narrowAt, stop) is { } wider)
        {
            return new(
                stage,
                window,
                $"{Words.Data(stage)}: only from {window.ShortestS:0.0} to {window.LongestS:0.0} s at {narrowAt:0} °C, which nobody hits: then {Words.Data(window.Harmed ?? "")} is harmed ({Words.Data(window.Harm ?? "")}); {Mend(ask, narrowAt, wider)}.",
                wider.C
            );
        }

        if (window.Open)
        {
            var until = window.LongestS is { } longest
                ? (Sentence)
                    $"at most {longest:0.0} s, before {Words.Data(window.Harmed ?? "")}: {Words.Data(window.Harm ?? "")}"
                : $"and nothing is harmed within {ask.LongestS:0} s";
            return new(stage, window, $"{Words.Data(stage)}: {needs} from {window.ShortestS:0.0} s on, {until}.", null);
        }

        var why = window.ShortestS is null
            ? window.HottestGlueC < ask.Glue.SoftensC
                ? (Sentence)
                    $"the glue line gets no hotter than {window.HottestGlueC:0} °C in {ask.LongestS:0} s, and the glue softens at {ask.Glue.SoftensC:0} °C"
                : $"the glue has not bonded after {ask.LongestS:0} s"
            : $"{needs} after {window.ShortestS:0.0} s";
        var harm = window.LongestS is { } harmed
            ? (
                window.ShortestS is null
                    ? (Sentence)
                        $", and {Words.Data(window.Harmed ?? "")} is harmed after {harmed:0.0} s ({Words.Data(window.Harm ?? "")})"
                    : $", but {Words.Data(window.Harmed ?? "")} is harmed after {harmed:0.0} s ({Words.Data(window.Harm ?? "")})"
            )
            : Sentence.Nothing;
        var at = setpoint is { } here ? (Sentence)$" at {here:0} °C" : Sentence.Nothing;
        var better = setpoint is { } from ? Better(ask, window, from, stop) : null;
        Sentence mend =
            better is { } found ? Mend(ask, setpoint!.Value, found)
            : window.LongestS is not null
                // More heat from below would harm sooner still.
                ? (Sentence)
                    $"change the cover sheet for a thinner one, let pad and lower plate cool down first, or choose a glue that bonds cooler"
            : $"change the cover sheet for a thinner one, warm the pad or the lower plate, or choose another glue";
        return new(stage, window, $"{Words.Data(stage)}: no such time{at}: {why}{harm}; {mend}.", better?.C);
    }

    private static bool Hit(HeatWindow window) =>
        window.ShortestS is { } shortest && !(window.LongestS < Math.Max(shortest * Wide, shortest + WideS));

    private static Sentence Mend(HeatWindowAsk ask, double from, (double C, HeatWindow Window) found)
    {
        var until = found.Window.LongestS is { } end ? (Sentence)$"{end:0} s" : $"{ask.LongestS:0} s and more";
        return found.C < from
            ? (Sentence)$"lower to {found.C:0} °C ({found.Window.ShortestS:0} to {until})"
            : $"raise to {found.C:0} °C ({found.Window.ShortestS:0} to {until})";
    }

    // The nearest set-point of the dial with a window that can be hit: down where something is harmed too soon, up where it never bonds.
    private static (double C, HeatWindow Window)? Better(
        HeatWindowAsk ask,
        HeatWindow window,
        double from,
        CancellationToken stop
    )
    {
        var down = window.LongestS is not null && window.ShortestS is not null;
        return Towards(down) ?? Towards(!down);

        (double, HeatWindow)? Towards(bool down)
        {
            var step = down ? -DialC : DialC;
            var first = down
                ? Math.Min(Math.Ceiling(from / DialC) * DialC, HottestDialC + DialC)
                : Math.Floor(from / DialC) * DialC;
            for (var c = first + step; (!down || c > ask.Glue.SoftensC) && c <= HottestDialC; c += step)
            {
                if (c <= ask.Glue.SoftensC)
                {
                    continue;
                }

                var found = HeatWindows.Find(HeatReports.At(ask, c), HeatSearch.Quick, stop);
                if (Hit(found))
                {
                    return (c, found);
                }
            }

            return null;
        }
    }
}
