using System.Globalization;
using Coldpeel.Files.Press;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Desk.Press;

/// <summary>A heat report in words.</summary>
internal static class HeatWords
{
    public static IEnumerable<string> Of(HeatAsk ask, HeatReport report)
    {
        var (problem, answer) = (report.Problem, report.Heat);
        if (problem.Reach is { } reach)
        {
            yield return answer.ReachedS is { } reached
                ? Say(
                    $"The glue line reaches {reach} after {reached:0.0} s and is there or above for {answer.HeldAboveS:0.0} s."
                )
                : Say(
                    $"The glue line never reaches {reach}; its hottest is {answer.GlueLineC.Where(double.IsFinite).DefaultIfEmpty(double.NaN).Max():0.0} °C."
                );
        }

        foreach (var stage in answer.Stages)
        {
            yield return Say($"  {stage.Name}: {stage.StartS:0.0} to {stage.EndS:0.0} s");
        }

        if (answer.CoolS is { } cool)
        {
            yield return Say($"Cooling takes {cool:0} s.");
        }

        yield return "Hottest: " + string.Join(", ", report.Hottest.Select(h => Say($"{h.Layer} {h.Celsius:0.0} °C")));
        foreach (var line in Asked(ask, report))
        {
            yield return line;
        }

        if (answer.Stages.FirstOrDefault(s => !s.Passed) is { } late)
        {
            yield return Say(
                $"{late.Name} ended after {late.EndS - late.StartS:0} s, and the glue line had not passed the temperature it waited for."
            );
        }

        yield return Say(
            $"Steps in time and space: the glue line is within {Math.Max(0.001, report.Error.Kelvin):0.000} °C{Late(report.Error)}. Heat that does not add up: {answer.Balance.ErrorPercent:0.000000} %."
        );
        foreach (var caution in HeatCautions.Of(ask, report))
        {
            yield return caution;
        }
    }

    private static IEnumerable<string> Asked(HeatAsk ask, HeatReport report)
    {
        if (report.Fitted is { } fitted)
        {
            if (report.Doubt is { } doubt)
            {
                yield return $"Not measured: {doubt}; the contacts stay as the file gives them. Measure more and nearer to them, and look for a slip in the readings.";
            }

            foreach (var found in report.Doubt is null ? fitted.Found : [])
            {
                yield return Say(
                    $"Measured here: {HeatTrust.Name(found.Contact)} {found.Wm2K:0} W/(m²·K), 95 % between {found.LowWm2K:0} and {found.HighWm2K:0}; {fitted.ResidualK:0.0} K left between readings and model."
                );
            }
        }

        if (report.Doubt is null && report.Fitted is { } kept && PressContacts.Of(kept) is { } contacts)
        {
            yield return $"  to keep them, write into that press in the workshop file: \"contacts\": {PressContactsText.Of(contacts)}";
        }

        if (report.GlueFitted is { } fittedGlue)
        {
            yield return report.GlueDoubt is { } open
                ? $"Not calibrated: {open}; make more trials, near the time at which the print begins to hold."
                : Say(
                    $"From {ask.Trials.Length} press trials: the glue bonds {fittedGlue.Speed:0.00} times as fast as the usual figures say, 95 % between {fittedGlue.Low:0.00} and {fittedGlue.High:0.00}."
                );
        }

        if (report.Window is { } window)
        {
            yield return window.Say.English;
            var from = report.Evidence == Evidence.CalibratedModel ? "measured here" : "from tables";
            yield return $"  contacts {from}, glue {report.GlueFrom(ask)}; the makers' sheets and your own trials come first";
        }

        if (report.HotPeel is { } peel)
        {
            var under = peel.UnderS is { } s ? Say($", the {peel.Under} under it for {s:0.0} s") : "";
            yield return Say(
                $"{ask.Problem.Stages[ask.HotPeel!.Stage].Name}: the glue line stays above {ask.HotPeel.AboveC:0.#} °C for {peel.GlueLineS:0.0} s{under}."
            );
        }

        if (report.Cool is { } cool)
        {
            yield return $"Cold enough to peel ({Say($"{ask.Cool!.UntilC:0.#} °C")}): on the rack {Time(cool.RackS)}, on a wooden table {Time(cool.TableS)}, on metal {Time(cool.MetalS)}.";
        }

        if (report.Plate.Length > 0)
        {
            yield return Plate(report);
        }

        if (report.Chances is { } chances)
        {
            var at = chances.At(report.Problem.Stages[ask.Window!.Stage].Seconds);
            yield return Say(
                $"Of {chances.Samples} cases drawn from the spreads, {at.Seconds:0.#} s bonds in {100 * at.Bonds:0} % and harms in {100 * at.Harms:0} %; {Finite(chances.ShortestS(0.95), "bonds in 95 %")}, {Finite(chances.LongestS(0.05), "harms in 5 %")}."
            );
        }
    }

    private static string Plate(HeatReport report)
    {
        var coldest = report.Plate.MinBy(p => p.Celsius)!;
        var at = report.Plate.IndexOf(coldest);
        string[] rows = ["top", "middle", "bottom"];
        string[] columns = ["left", "centre", "right"];
        var shortest = report.Plate.All(p => p.Window.ShortestS is not null)
            ? Say($"{report.Plate.Max(p => p.Window.ShortestS):0.0} s")
            : "no time looked at";
        var longest = report.Plate.Min(p => p.Window.LongestS) is { } l
            ? Say($"its hottest harms from {l:0.0} s on")
            : "nothing is harmed in the time looked at";
        return Say(
            $"The plate is coldest at the {rows[at / 3]} {columns[at % 3]} ({coldest.Celsius:0.#} °C of {report.Plate.Max(p => p.Celsius):0.#} °C): the whole plate bonds from {shortest} on, and {longest}."
        );
    }

    private static string Late(StatedError error) =>
        error.Seconds >= 0.0005 ? Say($", times within {error.Seconds:0.000} s") : "";

    private static string Finite(double seconds, string what) =>
        double.IsFinite(seconds) ? Say($"{seconds:0.0} s {what}") : $"no time looked at {what}";

    private static string Time(double? seconds) =>
        seconds is { } s ? (s < 120 ? Say($"{s:0} s") : Say($"{s / 60:0.0} min")) : "longer than four hours";

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
