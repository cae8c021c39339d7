namespace Coldpeel.Craft.Press.Day;

/// <summary>Everything that laying the next block of a list looks at, but the starts of those before it.</summary>
internal sealed class ListState(int hands, int machines, int places)
{
    public HandTimeline Hands { get; } = new(hands);

    /// <summary>From when each machine is free, and at which set-point (by number) it then stands.</summary>
    public int[] Ready { get; } = new int[machines];

    public int[] Temp { get; } = new int[machines];

    public RackCount Store { get; } = new(places);

    public void CopyFrom(ListState other)
    {
        Hands.CopyFrom(other.Hands);
        other.Ready.CopyTo(Ready, 0);
        other.Temp.CopyTo(Temp, 0);
        Store.CopyFrom(other.Store);
    }
}
