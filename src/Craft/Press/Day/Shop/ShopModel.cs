namespace Coldpeel.Craft.Press.Day;

/// <summary>One block follows another: not before <paramref name="Lag"/> seconds after its end, or exactly then.</summary>
internal readonly record struct ShopLink(int From, int To, int Lag, bool Exact);

/// <summary>A machine: from when it is free and at which set-point it then stands.</summary>
internal readonly record struct ShopMachine(int Ready, int TempC);

/// <summary>Work that is promised: done when the last of its blocks ends.</summary>
internal sealed record ShopDue(int Due, int Weight, int[] Last);

/// <summary>
/// A shop in numbers, whatever it makes: blocks on machines and hands, what follows what, set-ups between set-points, a store of limited
/// room. A day at the presses is one, a job shop of the textbooks another.
/// </summary>
internal sealed record ShopModel
{
    /// <summary>Nothing new starts before this second.</summary>
    public required int Now { get; init; }

    public required Block[] Blocks { get; init; }

    public required ShopLink[] Links { get; init; }

    public required ShopMachine[] Machines { get; init; }

    /// <summary>Seconds from one set-point to another, rounded up; never more than by way of a third.</summary>
    public required Func<int, int, int> SetUp { get; init; }

    /// <summary>Start of a block that is begun, or -1.</summary>
    public required int[] FixedStart { get; init; }

    /// <summary>Machine of a block that is begun, or -1.</summary>
    public required int[] FixedMachine { get; init; }

    /// <summary>How many hands there are; 0 when the blocks need none.</summary>
    public int Hands { get; init; }

    /// <summary>Times in which one of the hands is away.</summary>
    public (int From, int To)[] Away { get; init; } = [];

    /// <summary>Where each block stood in the plan in force: start or -1, and machine; empty when there was none.</summary>
    public (int Start, int Machine)[] Wanted { get; init; } = [];

    /// <summary>Seconds of what is sought that leaving one block where it stood is worth.</summary>
    public int CalmS { get; init; }

    /// <summary>The second at which a block is pinned to begin, or -1; empty when none is.</summary>
    public int[] Exactly { get; init; } = [];

    /// <summary>How many seconds all pinned blocks together may begin after their seconds, where a plan must not let them be later.</summary>
    public long OffMost { get; init; }

    /// <summary>Places of the store.</summary>
    public int Places { get; init; }

    /// <summary>A place is held from the end of the first block to the start of the second.</summary>
    public (int From, int To)[] Holds { get; init; } = [];

    /// <summary>What has begun needs the store: by this second so many of the blocks that give a place back must have started.</summary>
    public (int Second, int Frees)[] MustFree { get; init; } = [];

    public ShopDue[] Dues { get; init; } = [];

    /// <summary>Blocks of jobs that pass every machine in the same order: one row a job, one column a machine; empty when free.</summary>
    public int[][] SameOrder { get; init; } = [];

    /// <summary>A second by which some best plan has ended: everything one after the other.</summary>
    public int Horizon()
    {
        var steepest = 0;
        var temps = Blocks.Where(b => b.Pressed).Select(b => b.TempC).Concat(Machines.Select(m => m.TempC)).Distinct();
        var known = temps.ToArray();
        foreach (var from in known)
        {
            steepest = Math.Max(steepest, known.Max(to => SetUp(from, to)));
        }

        var start = Machines.Select(m => m.Ready).Concat(Blocks.Select(b => b.Release)).Append(Now).Max();
        start = Math.Max(start, Away.Select(a => a.To).DefaultIfEmpty(0).Max());
        for (var b = 0; b < Blocks.Length; b++)
        {
            start = FixedStart[b] >= 0 ? Math.Max(start, FixedStart[b] + Blocks[b].Length) : start;
        }

        return start
            + Blocks.Sum(b => b.Length + (b.Pressed ? steepest : 0))
            + Links.GroupBy(l => l.To).Sum(g => g.Max(l => l.Lag));
    }
}
