using System.Collections.Immutable;

namespace Coldpeel.Desk.Rooms;

/// <summary>A setting that was changed.</summary>
/// <param name="At">When, where the workshop is.</param>
/// <param name="Who">Who.</param>
/// <param name="Key">Which setting.</param>
/// <param name="After">What it is since then.</param>
/// <param name="Before">What it was before; null where it was not set.</param>
public sealed record SettingChange(DateTimeOffset At, string Who, string Key, string After, string? Before);

/// <summary>Who changed which setting, and when.</summary>
public sealed class SettingHistory(OpenedWorkshop workshop)
{
    private const int Most = 12;

    // As the store writes it.
    private const string SetTo = "set to ";

    /// <summary>The last changes, newest first.</summary>
    public ImmutableArray<SettingChange> Last() =>
        [
            .. new LookBack(workshop)
                .Newest("setting", null, null, Most)
                .Select(c => new SettingChange(
                    c.At,
                    c.Who,
                    c.Name,
                    c.What.StartsWith(SetTo, StringComparison.Ordinal) ? c.What[SetTo.Length..] : c.What,
                    c.Before
                )),
        ];
}
