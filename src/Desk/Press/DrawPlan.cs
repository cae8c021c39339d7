using System.Collections.Frozen;
using System.Globalization;
using System.Text;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Press;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Desk.Press;

/// <summary>Which papers of a plan are wanted, each as the file to write, and the clock they tell; <paramref name="Next"/> is the day file to plan again from.</summary>
public sealed record PlanPapers(
    string? Chart,
    string? Calendar,
    string? Pdf,
    string? Date,
    string? Start,
    string? Next = null
)
{
    internal bool Any => Chart is not null || Calendar is not null || Pdf is not null || Next is not null;
}

/// <summary>Writes a plan as a time chart, a calendar and a paper for the wall.</summary>
/// <param name="time">Where the instant on a calendar comes from.</param>
public sealed class DrawPlan(TimeProvider time)
{
    /// <summary>Writes what is wanted; files are moved in place when whole.</summary>
    public Outcome<PlannedDay> Run(PlannedDay planned, PlanPapers papers)
    {
        ArgumentNullException.ThrowIfNull(planned);
        ArgumentNullException.ThrowIfNull(papers);
        var start = new TimeOnly(8, 0);
        if (
            papers.Start is not null
            && !TimeOnly.TryParseExact(
                papers.Start,
                ["HH:mm", "H:mm"],
                CultureInfo.InvariantCulture,
                DateTimeStyles.None,
                out start
            )
        )
        {
            return new Fault("--start", $"{papers.Start} is no clock time.", "Write it as 08:00.");
        }

        DateOnly? day = null;
        if (papers.Date is not null)
        {
            if (
                !DateOnly.TryParseExact(
                    papers.Date,
                    "yyyy-MM-dd",
                    CultureInfo.InvariantCulture,
                    DateTimeStyles.None,
                    out var date
                )
            )
            {
                return new Fault("--date", $"{papers.Date} is no day.", "Write it as 2026-11-28.");
            }

            day = date;
        }

        if (!papers.Any)
        {
            return planned;
        }

        var paper = new DayPlanPaper(
            planned.Problem.Name,
            "Coldpeel",
            day,
            start,
            planned.Problem,
            planned.Plan,
            Names(planned.Problem)
        );
        var now = time.GetUtcNow();
        var wrong =
            Put(papers.Chart, () => Encoding.UTF8.GetBytes(DayChartSvg.Write(paper)))
            ?? Put(papers.Calendar, () => Encoding.UTF8.GetBytes(DayCalendar.Write(paper, now)))
            ?? Put(papers.Pdf, () => DayPlanPdf.Write(paper))
            ?? Put(papers.Next, () => Encoding.UTF8.GetBytes(planned.NextDay));
        return wrong is null ? planned : wrong;
    }

    // A day file names nothing for people: a placement is told by its item and order.
    private static FrozenDictionary<string, string> Names(DayProblem day) =>
        day.Placements.ToFrozenDictionary(
            p => p.Id,
            p => $"{p.Id} on {p.Item}, order {p.Order}",
            StringComparer.Ordinal
        );

    private static Fault? Put(string? path, Func<byte[]> bytes) => path is null ? null : OneFile.Put(path, bytes());
}
