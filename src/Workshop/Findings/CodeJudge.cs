using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Artwork;

namespace Coldpeel.Workshop.Findings;

/// <summary>Whether a machine-readable code on an item will be read.</summary>
internal static class CodeJudge
{
    // A telephone at arm's length makes out half a millimetre (common practice, no source).
    private const double LeastModuleMm = 0.5;

    /// <summary>One finding a code: a note when nothing stands against it, else a warning that says what does.</summary>
    public static IEnumerable<Finding> Judge(Design design, ProcessLimits limits, Sentence where)
    {
        foreach (var code in design.Codes)
        {
            yield return One(code, LeastModule(limits), where);
        }

        if (design.LostCode is { } lost)
        {
            yield return new(
                "code",
                Severity.Warn,
                $"{where}: the file holds a {lost.Kind} (“{Words.Short(lost.Text)}”) that cannot be read any more as it will print; make it larger, let other colours print, or leave it out."
            )
            {
                Count = 1,
                At = [lost.At],
            };
        }
    }

    /// <summary>The narrowest element that holds, stays open and is read, in mm.</summary>
    public static double LeastModule(ProcessLimits limits) =>
        Math.Max(LeastModuleMm, Math.Max(limits.LineMm, limits.GapMm));

    private static Finding One(FoundCode code, double least, Sentence where)
    {
        var against = new List<Sentence>();
        if (code.Inverted)
        {
            against.Add(
                $"its dark parts come out white on the fabric, and many readers fail on such swapped codes: print the field round it instead, so that the fabric is its dark part"
            );
        }

        if (code.ModuleMm < least)
        {
            against.Add($"its elements should be {Words.Mm(least)} wide or more to hold and to be read");
        }

        if (code.QuietModules < code.NeededModules - 0.5)
        {
            against.Add(
                $"only {Words.Figure(code.QuietModules, "0.#")} elements of empty room lie beside it where {Words.Figure(code.NeededModules, "0")} are needed"
            );
        }

        Sentence figures =
            $"a {code.Kind} (“{Words.Short(code.Text)}”) with elements of {Words.Mm(code.ModuleMm)} and {Words.Figure(code.QuietModules, "0.#")} elements of empty room";
        return new(
            "code",
            against.Count > 0 ? Severity.Warn : Severity.Note,
            against.Count > 0
                ? (Sentence)
                    $"{where}: {figures}: {Words.Row(against, "; ")}; try it on a printed piece with several telephones first."
                : $"{where}: {figures} reads as it will print; try it on a printed piece, fabric bends and shines."
        )
        {
            Count = 1,
            WorstMm = code.ModuleMm,
            LimitMm = least,
            At = [code.At],
        };
    }
}
