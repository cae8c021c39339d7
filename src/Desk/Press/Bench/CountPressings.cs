using System.Collections.Immutable;
using Coldpeel.Desk.Shelf;
using Coldpeel.Workshop.Press.Bench;

namespace Coldpeel.Desk.Press.Bench;

/// <summary>Pressings that the bench has recorded at one setting.</summary>
/// <param name="Figures">The setting of the press.</param>
/// <param name="Pressed">How many were pressed.</param>
/// <param name="Spoilt">How many items of them were said to be spoilt.</param>
/// <param name="Last">When the last one was pressed, local time.</param>
public sealed record RecordedPressings(StepFigures Figures, int Pressed, int Spoilt, DateTimeOffset Last);

/// <summary>Counts what the bench has recorded of a material, by the setting it was pressed with.</summary>
internal sealed class CountPressings(OpenedWorkshop workshop)
{
    /// <summary>So many days at the bench are looked through, the last ones.</summary>
    public const int Days = 30;

    /// <summary>The recorded pressings of a material, the last first.</summary>
    /// <param name="material">Its name for people, as tickets have it.</param>
    public ImmutableArray<RecordedPressings> Of(string material) =>
        [
            .. workshop
                .Store.Bench.Last(Days)
                .SelectMany(d => OfDay(d.Id, material))
                .GroupBy(p => p.Figures)
                .Select(g => new RecordedPressings(
                    g.Key,
                    g.Count(),
                    g.Where(p => p.Spoilt).Select(p => (p.Day, p.Item)).Distinct().Count(),
                    TimeZoneInfo.ConvertTime(g.Max(p => p.At), workshop.Clock.LocalTimeZone)
                ))
                .OrderByDescending(p => p.Last),
        ];

    private IEnumerable<(StepFigures Figures, int Day, string Item, bool Spoilt, DateTimeOffset At)> OfDay(
        int day,
        string material
    )
    {
        if (workshop.Store.Bench.Day(day) is not { } kept)
        {
            yield break;
        }

        var cards = KeptJson
            .Read<BenchCard[]>(kept.CardsJson)
            .Where(c => c.Ticket > 0 && c.Material == material)
            // A day that holds a name twice counts its first, and takes nobody's page down.
            .DistinctBy(c => c.Ref)
            .ToDictionary(c => c.Ref);
        if (cards.Count == 0)
        {
            yield break;
        }

        var progress = BenchProgress.Of(
            KeptJson.Read<BenchPlan>(kept.PlanJson),
            new OpenBench(workshop).Events(day, 0)
        );
        foreach (var task in progress.Tasks.Where(t => t.Op == "press"))
        {
            if (
                progress.Done.TryGetValue(task.Id, out var done)
                && cards.GetValueOrDefault(task.Ref)?.Settings.GetValueOrDefault("press") is { } set
            )
            {
                yield return (
                    new(set.Celsius, set.Seconds, set.KPa, set.Cover),
                    day,
                    task.Item,
                    progress.Spoilt.Contains(task.Item),
                    done.At
                );
            }
        }
    }
}
