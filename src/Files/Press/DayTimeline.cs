using System.Globalization;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Paper;
using SkiaSharp;

namespace Coldpeel.Files.Press;

/// <summary>The timeline: strips to scale, a lane a press, a lane a pair of hands, a lane for the rack. Patterns and words, never colour alone.</summary>
internal static class DayTimeline
{
    private const double LabelMm = 27;
    private const double PressMm = 11.5;
    private const double HandMm = 9.5;
    private const double RackMm = 9.5;
    private const double AxisMm = 6;
    private const double GapMm = 3;

    private static readonly TextStyle Lane = TextStyle.Title.At(11);
    private static readonly TextStyle Tag = TextStyle.Strong.At(7);
    private static readonly TextStyle Number = TextStyle.Title.At(8);

    /// <summary>One strip: where it begins, how many seconds it holds, and its place on the paper.</summary>
    private readonly record struct Strip(Page Page, int From, int Seconds, double Left, double Width)
    {
        public double X(int second) => Left + (Math.Clamp(second - From, 0, Seconds) * Width / Seconds);

        public bool Shows(int start, int end) => end > From && start < From + Seconds;
    }

    public static void Draw(Flow flow, DayWords words)
    {
        var end = words.Steps.Max(s => s.End);
        var begin = Math.Min(words.Steps.Min(s => s.Start), words.Problem.Now);
        var (span, tick) = Scale(end - begin);
        var hands = Math.Max(words.Problem.Hands, words.Steps.Max(s => s.Hand) ?? 0);
        var height = AxisMm + (words.Problem.Presses.Length * PressMm) + (hands * HandMm) + RackMm + GapMm;
        var first = begin - (begin % tick);
        DayKey.Draw(flow);
        for (var from = first; from < end; from += span)
        {
            flow.Keep(height);
            var strip = new Strip(flow.Page, from, span, flow.Left + LabelMm, flow.Width - LabelMm - 1);
            var top = flow.Y;
            Axis(strip, flow, words, tick, height - GapMm);
            flow.Gap(AxisMm);
            foreach (var press in words.Problem.Presses)
            {
                Press(strip, flow, words, press);
            }

            for (var hand = 1; hand <= hands; hand++)
            {
                Hand(strip, flow, words, hand);
            }

            Rack(strip, flow, words);
            flow.Y = top + height;
        }
    }

    /// <summary>Seconds a strip and seconds between clock marks: finer for a short day.</summary>
    private static (int Span, int Tick) Scale(int seconds) =>
        seconds switch
        {
            <= 15 * 60 => (10 * 60, 60),
            <= 45 * 60 => (15 * 60, 60),
            <= 8 * 3600 => (30 * 60, 300),
            _ => (60 * 60, 300),
        };

    private static void Axis(Strip strip, Flow flow, DayWords words, int tick, double height)
    {
        for (var t = strip.From; t <= strip.From + strip.Seconds; t += tick)
        {
            var x = strip.X(t);
            strip.Page.Rule(x, flow.Y + 5.4, x, flow.Y + height, 0.12, Inks.Line);
            if (t < strip.From + strip.Seconds)
            {
                strip.Page.Text(x + 0.6, flow.Y + 4.6, words.Clock(t)[..5], TextStyle.Strong.At(9));
            }
        }
    }

    private static void Press(Strip strip, Flow flow, DayWords words, DayPress press)
    {
        Name(flow, press.Id, flow.Words.Size(press.PlateW, press.PlateH), PressMm);
        var (top, tall) = (flow.Y + 4, PressMm - 5);
        foreach (var change in words.Changes.Where(c => c.Press == press.Id && strip.Shows(c.Start, c.End)))
        {
            var (x, w) = (strip.X(change.Start), strip.X(change.End) - strip.X(change.Start));
            DayKey.Waves(strip.Page, x, top, w, tall);
            DayKey.Centred(strip.Page, $"{change.FromC} → {change.ToC} °C", x, top, w, tall);
        }

        var steps = words.Steps.Where(s => s.Press == press.Id && s.Op != "cool" && strip.Shows(s.Start, s.End));
        var taken = strip.Left - 1;
        string? last = null;
        foreach (var step in steps)
        {
            var (x, w) = (strip.X(step.Start), strip.X(step.End) - strip.X(step.Start));
            DayKey.Block(strip.Page, step.Op, x, top, w, tall);
            // The number stands above the first block of its thing, in the order of time; one that finds no room is left to the list.
            var tag = words.Tag(step.Ref);
            var width = TextLines.WidthMm(tag, Number);
            if (last != step.Ref && x > taken + 0.8 && x + width < strip.Left + strip.Width)
            {
                strip.Page.Text(x, top - 0.7, tag, Number);
                taken = x + width;
            }

            last = step.Ref;
        }

        flow.Gap(PressMm);
    }

    private static void Hand(Strip strip, Flow flow, DayWords words, int hand)
    {
        Name(flow, words[$"Hands {hand}"], "", HandMm);
        var steps = words.Steps.Where(s => s.Hand == hand && strip.Shows(s.Start, s.End)).ToList();
        foreach (var run in Trims(steps))
        {
            var (x, w) = (strip.X(run[0].Start), strip.X(run[^1].End) - strip.X(run[0].Start));
            strip.Page.Box(x, flow.Y + 1, w, HandMm - 2, 0.25, Inks.Black);
            foreach (var (say, down) in new[] { (DayKey.Letter(run[0].Op), 3.9), (DayLists.Numbers(run, words), 7.2) })
            {
                if (DayKey.Fit(say, w - 0.4) is { } style)
                {
                    strip.Page.Text(x + (w / 2), flow.Y + down, say, style, Align.Centre);
                }
            }
        }

        foreach (var pause in words.Breaks.Where(b => b.Hand == hand && strip.Shows(b.From, b.To)))
        {
            var (x, w) = (strip.X(pause.From), strip.X(pause.To) - strip.X(pause.From));
            strip.Page.Fill(x, flow.Y + 1, w, HandMm - 2, Inks.Pale);
            strip.Page.Box(x, flow.Y + 1, w, HandMm - 2, 0.25, Inks.Black);
            var say = words[$"break"];
            if (DayKey.Fit(say, w - 0.4) is { } style)
            {
                strip.Page.Text(x + (w / 2), flow.Y + 5.6, say, style, Align.Centre);
            }
        }

        flow.Gap(HandMm);
    }

    /// <summary>Trims that follow right on one another are one box.</summary>
    private static List<List<DayStep>> Trims(List<DayStep> steps)
    {
        var runs = new List<List<DayStep>>();
        foreach (var step in steps)
        {
            if (runs.Count > 0 && runs[^1][^1] is { Op: "trim" } last && step.Op == "trim" && last.End == step.Start)
            {
                runs[^1].Add(step);
            }
            else
            {
                runs.Add([step]);
            }
        }

        return runs;
    }

    private static void Rack(Strip strip, Flow flow, DayWords words)
    {
        var places = Math.Max(1, words.Problem.RackPlaces);
        Name(flow, words[$"Rack"], words[$"of {words.Problem.RackPlaces} places"], RackMm);
        var (bottom, tall) = (flow.Y + RackMm - 1, RackMm - 3);
        strip.Page.Rule(strip.Left, bottom - tall, strip.Left + strip.Width, bottom - tall, 0.3, Inks.Black, 1.4);
        strip.Page.Rule(strip.Left, bottom, strip.Left + strip.Width, bottom, 0.3, Inks.Black);
        var levels = words.Rack();
        for (var i = 0; i + 1 < levels.Count; i++)
        {
            var (start, held) = levels[i];
            var stop = levels[i + 1].Second;
            if (held <= 0 || !strip.Shows(start, stop))
            {
                continue;
            }

            var (x, w, h) = (strip.X(start), strip.X(stop) - strip.X(start), Math.Min(held, places) * tall / places);
            strip.Page.Fill(x, bottom - h, w, h, new SKColor(0xd8, 0xd8, 0xd8));
            strip.Page.Rule(x, bottom - h, x + w, bottom - h, 0.5, Inks.Black);
            var say = held.ToString(CultureInfo.InvariantCulture);
            if (TextLines.WidthMm(say, Tag) < w - 0.4)
            {
                // Above the level where there is room below the rack's limit, else inside.
                var at = tall - h > 3.5 ? bottom - h - 0.8 : bottom - h + 2.9;
                strip.Page.Text(x + (w / 2), at, say, Tag, Align.Centre);
            }
        }

        flow.Gap(RackMm);
    }

    private static void Name(Flow flow, string name, string small, double height)
    {
        var lines = (small.Length > 0 ? TextStyle.Small.LineMm : 0) + Lane.LineMm;
        var top = flow.Y + ((height - lines) / 2);
        flow.Page.Text(flow.Left, top + Lane.BaselineMm, name, Lane.FitTo(name, LabelMm - 2));
        if (small.Length > 0)
        {
            var style = TextStyle.Small.FitTo(small, LabelMm - 2);
            flow.Page.Text(flow.Left, top + Lane.LineMm + TextStyle.Small.BaselineMm, small, style);
        }

        flow.Page.Rule(flow.Left, flow.Y, flow.Left + flow.Width, flow.Y, 0.12, Inks.Line);
    }
}
