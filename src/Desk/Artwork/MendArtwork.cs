using System.Collections.Immutable;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Files.Artwork;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Artwork;

/// <summary>Mends a design as asked, and tells what each mend changed.</summary>
internal static class MendArtwork
{
    public static MendedArtwork Run(
        MendWord.Asked mends,
        DesignRequest.Drawn asked,
        SourceArtwork source,
        Design design,
        WorkshopBook book,
        ProcessLimits limits
    )
    {
        var steps = ImmutableArray.CreateBuilder<MendStep>();
        var (now, cleared) = (design, false);
        foreach (var mend in mends.Words.Where(m => m.OfPlane is null))
        {
            MendStep step;
            if (mend.Word == MendWord.RemoveBox)
            {
                (now, step) = RemoveBox(asked, source, now, book, limits);
                cleared = step.Places > 0;
            }
            else
            {
                (now, step) = new EnlargeArtwork(asked, source, now, book, limits, cleared).Run();
            }

            steps.Add(step);
        }

        var ofPlane = mends.Words.Where(m => m.OfPlane is not null).ToImmutableArray();
        if (!ofPlane.IsEmpty)
        {
            (now, var made) = OnPlane(ofPlane, asked.Tone, now, limits, source.SourceDpiAt(now.WidthMm), Larger);
            steps.AddRange(made);
        }

        return new(now, steps.ToImmutable(), WorstFirst.Order(DesignJudge.Judge(now, limits, asked.Id)));

        double? Larger() => new EnlargeArtwork(asked, source, now, book, limits, cleared).Smallest();
    }

    private static (Design Design, IEnumerable<MendStep> Steps) OnPlane(
        ImmutableArray<MendWord> words,
        Tone tone,
        Design design,
        ProcessLimits limits,
        double? sourceDpi,
        Func<double?> larger
    )
    {
        var cycled = MendCycle.Run(
            [.. words.Select(w => w.OfPlane!.Value)],
            design.Plane,
            limits,
            sourceDpi,
            DesignFrom.Apart(design.Codes)
        );
        var steps = words
            .Select(w =>
            {
                var sum = cycled.Sums[w.OfPlane!.Value];
                return sum.At.Count == 0
                    ? MendStep.None(w.Word, sum.InkMm2, $"there was nothing to mend")
                    : MendStep.Of(w.Word, sum.At.Count, sum.AddedMm2, sum.RemovedMm2, sum.InkMm2, [.. sum.At]);
            })
            .ToArray();
        if (steps.All(s => s.Places == 0))
        {
            return (design, steps);
        }

        // The mended dots are the design now: outlines drawn before the mend no longer say what prints. In the solid tone they are whole dots, as for
        // every picture, so that what is shown is what comes.
        var (plane, smooth) = tone == Tone.Solid ? (PlaneMaker.Cut(cycled.Plane), cycled.Plane) : (cycled.Plane, null);
        var after = RemadeDesign.Of(design, design.WidthMm, design.HeightMm, plane, null, limits, sourceDpi, smooth);
        if (cycled.StillNarrow > 0)
        {
            var at = Array.FindIndex(steps, s => s.Mend == MendWord.OpenGaps);
            steps[at] = steps[at].Besides(cycled.StillNarrow, larger());
        }

        return (after, steps);
    }

    private static (Design Design, MendStep Step) RemoveBox(
        DesignRequest.Drawn asked,
        SourceArtwork source,
        Design design,
        WorkshopBook book,
        ProcessLimits limits
    )
    {
        if (design.Flaws.All(f => f.Kind != FlawKind.Box))
        {
            return (design, Nothing($"no box prints round the design"));
        }

        var drawn = DrawnDesign.WithoutGround(
            source,
            asked,
            design.WidthMm,
            design.HeightMm,
            book.PrinterDpi / Length.MillimetresPerInch
        );
        if (drawn is not { } free || Ink.Box(free.Plane) is null)
        {
            return (
                design,
                Nothing($"the border has no even colour that could be taken out; cut the design out by hand")
            );
        }

        var (added, removed) = PlaneChange.Between(design.Plane, free.Plane);
        var after = RemadeDesign.Of(
            design,
            design.WidthMm,
            design.HeightMm,
            free.Plane,
            null,
            limits,
            source.SourceDpiAt(design.WidthMm),
            free.Smooth
        );
        var whole = new BoxMm(0, 0, design.WidthMm, design.HeightMm);
        return (
            after with
            {
                PrintsSay = free.Because,
            },
            MendStep.Of(MendWord.RemoveBox, 1, added, removed, design.InkMm2, [whole])
        );

        MendStep Nothing(Sentence why) => MendStep.None(MendWord.RemoveBox, design.InkMm2, why);
    }
}
