using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;
using Coldpeel.Workshop.Press;

namespace Coldpeel.Desk.Artwork;

/// <summary>From a plane with tints to what the printer gets, with the choice of screen in words.</summary>
internal static class TonedPlane
{
    /// <summary>The plane in the tone that was asked for, and a note where a screen was chosen.</summary>
    public static (WhitePlane Plane, Finding? Note) Of(
        DesignRequest.Drawn asked,
        WhitePlane plane,
        double? sourceDpi,
        ProcessLimits limits,
        DotGain? gain
    )
    {
        switch (asked.Tone)
        {
            case Tone.Screen:
                var screen = LineScreen.For(limits, plane.DotsPerMm);
                return Told(asked, screen.Apply(plane, sourceDpi, gain?.Curve), gain, Say(screen, plane.DotsPerMm));
            case Tone.Spray:
                var spray = Spray.For(limits, plane.DotsPerMm);
                return Told(asked, spray.Apply(plane, sourceDpi, gain?.Curve), gain, Say(spray));
            case Tone.Grey when gain is not null:
                var coverage = plane.Coverage.Select(c => (byte)Math.Round(255 * gain.Curve.Ask(c / 255.0)));
                return (new(plane.Width, plane.Height, [.. coverage], plane.DotsPerMm), null);
            default:
                return (plane, null);
        }
    }

    /// <summary>The screen in words: "1.35 mm from line to line …".</summary>
    public static Sentence Say(LineScreen screen, double dotsPerMm)
    {
        var range = screen.Range(dotsPerMm);
        return $"a line screen, {Mm(screen.PeriodMm)} from line to line ({screen.LinesPerInch:0} an inch) at {screen.AngleDeg:0}°, for dots from {Mm(screen.DotMm)} and gaps from {Mm(screen.GapMm)}; "
            + $"tints from {100 * range.Lightest:0} to {100 * range.Darkest:0} % come out true, lighter ones as {100 * range.Lightest:0} % (below {50 * range.Lightest:0} % nothing), darker ones as {100 * range.Darkest:0} % (above {50 * (1 + range.Darkest):0} % solid)";
    }

    private static Part.Length Mm(double mm) => new Part.Length(mm, null, "0.##");

    /// <summary>The spray in words.</summary>
    public static Sentence Say(Spray spray) =>
        $"scattered clusters of {Mm(spray.CellMm)}, for dots from {Mm(spray.DotMm)}; every tint comes out true over an area of some clusters";

    private static (WhitePlane Plane, Finding? Note) Told(
        DesignRequest.Drawn asked,
        Screened screened,
        DotGain? gain,
        Sentence choice
    ) =>
        (
            screened.Plane,
            screened.HadTints
                ? new Finding(
                    "tone",
                    Severity.Note,
                    $"{Path.GetFileName(asked.File)}: tints become {choice}{(gain is null ? Sentence.Nothing : $"; corrected for dot gain ({gain.Source})")}."
                )
                {
                    Design = asked.Id,
                }
                : null
        );
}
