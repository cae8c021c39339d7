using System.Globalization;
using System.Text.Json;
using Coldpeel.Craft.Press.Heat;
using Coldpeel.Files.Json;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Files.Press;

/// <summary>Finds what a stack file says against itself, after every key of it was read for its own.</summary>
internal sealed class StackContradictions(JsonElement root, HeatAsk ask, Action<string, string, string> fail)
{
    // More rows than this nobody reads; they only take memory.
    internal const double MostRows = 20000;

    // A stage without a time of its own is counted as an hour.
    private const double OpenEndedS = 3600;

    private readonly HeatProblem _problem = ask.Problem;

    /// <summary>Tells the first contradiction.</summary>
    public void Find()
    {
        Rows();
        Stages();
        Contacts();
        Reach();
        Harm();
        Wishes();
        SteadyPlate();
    }

    private void Rows()
    {
        var rows =
            _problem.Stages.Sum(s => double.IsFinite(s.Seconds) ? s.Seconds : OpenEndedS) / _problem.OutputEveryS;
        if (root.TryGetProperty("outputEveryS", out _) && rows > MostRows)
        {
            fail(
                "/outputEveryS",
                Say($"that makes about {rows:0} rows, and {MostRows:0} are the most."),
                "Give more seconds between two rows."
            );
        }
    }

    private void Stages()
    {
        // Heat runs from hot to cold: the glue line stays between the coldest and the hottest that was ever there.
        var starts = _problem.Layers.Select(l => l.Start.InCelsius).ToList();
        for (var i = 0; i < _problem.Stages.Length; i++)
        {
            var stage = _problem.Stages[i];
            if (_problem.Stages.Take(i).Any(s => s.Name == stage.Name))
            {
                fail($"/stages/{i}/name", $"two stages are called \"{stage.Name}\".", "Give each its own name.");
            }

            starts.AddRange(stage.Add.Select(a => a.Layer.Start.InCelsius));
            starts.AddRange(stage.Upper.CausesC.Concat(stage.Lower.CausesC));
            if (stage.UntilGlueLine is not { InCelsius: var until })
            {
                continue;
            }

            if (!GlueLies(i))
            {
                fail(
                    $"/stages/{i}/untilGlueLineC",
                    $"it waits for the glue line, and \"{_problem.GlueLineBelow}\" is no longer in the stack.",
                    "Leave that layer in, or give \"seconds\"."
                );
            }
            else if (until <= starts.Min() || until >= starts.Max())
            {
                fail(
                    $"/stages/{i}/untilGlueLineC",
                    Say(
                        $"the glue line never gets to {until:0.#} °C where plates, air and layers are {starts.Min():0.#} to {starts.Max():0.#} °C."
                    ),
                    "Give a temperature between them."
                );
            }
        }
    }

    private void Contacts()
    {
        var orders = Enumerable.Range(0, _problem.Stages.Length).Select(_problem.LyingIn).ToList();
        for (var i = 0; i < _problem.Contacts.Length; i++)
        {
            var (above, below) = (_problem.Contacts[i].Above, _problem.Contacts[i].Below);
            if (_problem.Contacts.Take(i).Any(c => c.Above == above && c.Below == below))
            {
                fail(
                    $"/contacts/{i}",
                    $"the contact of \"{above}\" on \"{below}\" stands there twice.",
                    "Keep one of them."
                );
            }
            else if (
                above == below
                || (!orders.Any(o => Over(o, above, below)) && orders.Any(o => Over(o, below, above)))
            )
            {
                fail(
                    $"/contacts/{i}",
                    $"\"{above}\" never lies above \"{below}\".",
                    "Name the upper layer as \"above\", the lower one as \"below\"."
                );
            }
            else if (!orders.Any(o => o.IndexOf(above) is >= 0 and var at && o.IndexOf(below) == at + 1))
            {
                fail(
                    $"/contacts/{i}",
                    $"\"{above}\" and \"{below}\" never touch: in every stage something lies between them, or one is away.",
                    "Name two layers that lie on one another."
                );
            }
        }
    }

    private void Reach()
    {
        if (_problem.Reach is not { InCelsius: var reach })
        {
            return;
        }

        if (!Enumerable.Range(0, _problem.Stages.Length).Any(GlueLies))
        {
            fail(
                "/glueLineBelow",
                $"\"{_problem.GlueLineBelow}\" is taken out before anything happens, so the glue line is never there.",
                "Leave that layer in, or leave \"reachC\" out."
            );
        }

        // What the library estimates is no contradiction of the file's: the answer tells it.
        if (
            Fabric() is { } fabric
            && TheirOwn.Any(h => h.Text("layer") == fabric)
            && ask.Harm.GetValueOrDefault(fabric)?.LimitC is { } limit
            && limit <= reach
        )
        {
            fail(
                "/reachC",
                Say($"{reach:0.#} °C at the glue line harms {fabric}, whose limit is {limit:0.#} °C."),
                "Ask for less, or check the limit of that layer."
            );
        }
    }

    private void Harm()
    {
        var list = TheirOwn;
        var stage = _problem.Stages[PressStage];
        var lying = _problem.LyingIn(PressStage);
        var glue = lying.IndexOf(_problem.GlueLineBelow);
        var fromAbove =
            stage.Upper is HeatSide.Held or HeatSide.Course
            && !(stage.Lower is HeatSide.Held or HeatSide.Course && stage.Lower.CausesC.Max() > ask.Glue.SoftensC);
        for (var i = 0; i < list.Length; i++)
        {
            var name = list[i].Text("layer");
            if (list.Take(i).Any(h => h.Text("layer") == name))
            {
                fail(
                    $"/x-harm/{i}/layer",
                    $"what \"{name}\" does not stand is told twice.",
                    "Put both into one entry."
                );
            }
            else if (
                fromAbove
                && list[i].NumberOrNull("limitC") is { } limit
                && limit <= ask.Glue.SoftensC
                && lying.IndexOf(name) is >= 0 and var at
                && at <= glue
            )
            {
                fail(
                    $"/x-harm/{i}/limitC",
                    Say(
                        $"{name} must stay below {limit:0} °C, and the glue under it, heated through it, softens only at {ask.Glue.SoftensC:0} °C."
                    ),
                    "No press time can satisfy both: check the limit, or choose a glue that softens lower."
                );
            }
        }
    }

    private void Wishes()
    {
        if (ask.Window is { } window && !GlueLies(window.Stage))
        {
            Gone("/x-window/stage");
        }

        if (ask.HotPeel is { } peel && !GlueLies(peel.Stage))
        {
            Gone("/x-hotPeel/stage");
        }

        if (ask.Cool is not { } cool)
        {
            return;
        }

        if (!GlueLies(cool.AfterStage))
        {
            Gone("/x-cool/after");
        }

        var lying = _problem.LyingIn(cool.AfterStage);
        for (var i = 0; i < cool.Remove.Length; i++)
        {
            if (!lying.Remove(cool.Remove[i]))
            {
                fail(
                    $"/x-cool/remove/{i}",
                    $"\"{cool.Remove[i]}\" is no longer in the stack after \"{_problem.Stages[cool.AfterStage].Name}\".",
                    $"Leave it out; there lie: {string.Join(", ", lying)}."
                );
            }
        }
    }

    // Other set-points can only be tried where the plate has one.
    private void SteadyPlate()
    {
        if (ask.Window is not { } window || _problem.Stages[window.Stage].Upper is HeatSide.Held)
        {
            return;
        }

        const string Mend = "Give the upper plate of that stage a \"heldC\" without \"x-courseC\", or leave this out.";
        if (ask.PlateC.Length > 0)
        {
            fail("/x-plate", "the stage's upper plate has no steady set-point, so its points change nothing.", Mend);
        }

        for (var i = 0; i < ask.Trials.Length; i++)
        {
            if (ask.Trials[i].PlateC is not null)
            {
                fail(
                    $"/x-trials/{i}/plateC",
                    "the stage's upper plate has no steady set-point that a trial could differ from.",
                    Mend
                );
            }
        }
    }

    // What the file itself says that a layer does not stand.
    private JsonElement[] TheirOwn => root.TryGetProperty("x-harm", out var own) ? [.. own.EnumerateArray()] : [];

    private int PressStage => ask.Window?.Stage ?? 0;

    private bool GlueLies(int stage) => _problem.LyingIn(stage).Contains(_problem.GlueLineBelow);

    private string? Fabric()
    {
        var lying = _problem.LyingIn(PressStage);
        var under = lying.IndexOf(_problem.GlueLineBelow) + 1;
        return under > 0 && under < lying.Count ? lying[under] : null;
    }

    private void Gone(string at) =>
        fail(
            at,
            $"\"{_problem.GlueLineBelow}\", over the glue line, is no longer in the stack then.",
            "Ask about a stage in which it lies there."
        );

    private static bool Over(List<string> lying, string above, string below) =>
        lying.IndexOf(above) is >= 0 and var a && lying.IndexOf(below) is var b && b > a;

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
