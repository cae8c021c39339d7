namespace Coldpeel.Workshop.Press.Bench;

/// <summary>What somebody at the bench can say.</summary>
public enum BenchSaying
{
    /// <summary>A hand takes a task up now: its true beginning is known.</summary>
    Started,

    /// <summary>A task is done.</summary>
    Done,

    /// <summary>An item or sheet is spoilt: what was still to be done with it falls away.</summary>
    Spoilt,

    /// <summary>What was opened far over its time was looked at and is good.</summary>
    Kept,

    /// <summary>A spoilt item or sheet is made once more.</summary>
    Again,

    /// <summary>
    /// Nothing goes on for some time: all that is left moves by so many seconds. With a subject that alone comes so much later, and
    /// the rest is planned again around it.
    /// </summary>
    Late,

    /// <summary>An order is put into the running day.</summary>
    Added,

    /// <summary>An earlier saying is taken back.</summary>
    TakenBack,
}

/// <summary>A tap at the bench, as a screen sends it.</summary>
/// <param name="Key">The screen's own name for this tap: the same tap sent twice counts once.</param>
/// <param name="Saying">What is said.</param>
/// <param name="About">The task of <see cref="BenchSaying.Started"/>, <see cref="BenchSaying.Done"/> and <see cref="BenchSaying.Kept"/>; the item or sheet of
/// <see cref="BenchSaying.Spoilt"/> and <see cref="BenchSaying.Again"/>; the key of what is taken back; the <see cref="LateSubject"/> of what is late,
/// empty for all; the order that is put in.</param>
/// <param name="Seconds">How late; how far over its time what is kept was opened, as the workshop reckons it; 0 for all others.</param>
public sealed record BenchTap(string Key, BenchSaying Saying, string About, int Seconds)
{
    /// <summary>Longest key and subject in characters: the longest name of an order (200), with the kind before it.</summary>
    public const int LongestText = 240;

    /// <summary>Most seconds that one tap can say it is late: a working day.</summary>
    public const int MostLateS = WorkDay.WorkingDayS;

    /// <summary>Whether the rest of the day is planned again for it.</summary>
    public bool PlansAgain => Saying == BenchSaying.Added || (Saying == BenchSaying.Late && About.Length > 0);
}

/// <summary>A tap that was taken: it never changes and never goes away.</summary>
/// <param name="Number">Rising from the first of the workshop.</param>
/// <param name="Tap">What was said.</param>
/// <param name="At">The instant it was said, by the clock of the workshop's computer.</param>
/// <param name="Who">The device or person.</param>
public sealed record BenchEvent(long Number, BenchTap Tap, DateTimeOffset At, string Who);
