namespace Coldpeel.Craft.Press.Day;

/// <summary>A day and the steps to be judged, looked up, and what was found so far.</summary>
internal sealed class DayCheckBook(DayProblem day, IReadOnlyList<DayStep> steps)
{
    public DayProblem Day { get; } = day;

    public IReadOnlyList<DayStep> Steps { get; } = steps;

    /// <summary>Each step once: the judge of work fills it and says which stand there twice.</summary>
    public Dictionary<(string Op, string Ref), DayStep> At { get; } = [];

    /// <summary>Blocks that had begun and may stand where no new one could.</summary>
    public HashSet<(string Block, string Ref)> Fixed { get; } = [.. day.Fixed.Select(f => (f.Op, f.Ref))];

    public List<string> Faults { get; } = [];

    public static string BlockOf(string op) =>
        op switch
        {
            "bond.load" or "bond.press" or "bond.peel" => "bond",
            "load" or "press" or "lift" or "cool" => "place",
            "finish.load" or "finish.press" or "unload" => "finish",
            _ => op,
        };

    public void Say(bool broken, string what)
    {
        if (broken)
        {
            Faults.Add(what);
        }
    }
}
