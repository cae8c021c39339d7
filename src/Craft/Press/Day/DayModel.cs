using System.Collections.Immutable;

namespace Coldpeel.Craft.Press.Day;

/// <summary>A day problem as blocks with numbers instead of names; what no press can take is set aside here.</summary>
internal sealed class DayModel
{
    private readonly List<Block> _blocks = [];
    private readonly List<DayLeftOut> _leftOut = [];
    private readonly Dictionary<(BlockKind Kind, int Of), int> _byName = [];
    private readonly Dictionary<int, int> _exactly = [];

    public DayModel(DayProblem problem)
    {
        Problem = problem;
        Sheets = Index(problem.Sheets.Select(s => s.Id), "sheet");
        Placements = Index(problem.Placements.Select(p => p.Id), "placement");
        Orders = Index(problem.Orders.Select(o => o.Id), "order");
        PressIds = Index(problem.Presses.Select(p => p.Id), "press");
        OrderOf = [.. problem.Placements.Select(p => Find(Orders, p.Order, "order"))];
        SheetOf = [.. problem.Placements.Select(p => p.Sheet is null ? -1 : Find(Sheets, p.Sheet, "sheet"))];
        AfterOf = [.. problem.Placements.Select(p => p.After is null ? -1 : Find(Placements, p.After, "placement"))];
        Build();
        Pin();
        Blocks = [.. _blocks];
        Successors = Link();
        FixedStart = new int[Blocks.Length];
        FixedPress = new int[Blocks.Length];
        ReadFixed();
    }

    public DayProblem Problem { get; }
    public Dictionary<string, int> Sheets { get; }
    public Dictionary<string, int> Placements { get; }
    public Dictionary<string, int> Orders { get; }
    public Dictionary<string, int> PressIds { get; }
    public int[] OrderOf { get; }
    public int[] SheetOf { get; }
    public int[] AfterOf { get; }
    public Block[] Blocks { get; }

    /// <summary>Per block, the blocks that wait for its end, and how long after it they may start.</summary>
    public (int Block, int Lag)[][] Successors { get; }

    /// <summary>Start of a fixed block, or -1.</summary>
    public int[] FixedStart { get; }

    /// <summary>Press of a fixed block, or -1.</summary>
    public int[] FixedPress { get; }

    public IReadOnlyList<DayLeftOut> LeftOut => _leftOut;

    /// <summary>Seconds to bring a press from one set-point to another, rounded up.</summary>
    public int SetUp(int fromC, int toC)
    {
        var minutes = toC >= fromC ? (toC - fromC) / Problem.HeatCPerMin : (fromC - toC) / Problem.CoolCPerMin;
        return (int)Math.Ceiling((minutes * 60) - 1e-9);
    }

    /// <summary>The block of that kind for that sheet or placement, or -1.</summary>
    public int Block(BlockKind kind, int of) => _byName.GetValueOrDefault((kind, of), -1);

    /// <summary>The block of a task by its word and the name of its sheet or placement, or -1.</summary>
    public int BlockOf(string op, string id)
    {
        var kind = KindOf(op);
        return Block(kind, kind == BlockKind.Bond ? Find(Sheets, id, "sheet") : Find(Placements, id, "placement"));
    }

    private void Build()
    {
        var room = new DayRoom(this);
        for (var s = 0; s < Problem.Sheets.Length; s++)
        {
            var sheet = Problem.Sheets[s];
            var done = room.Bonded.Contains(sheet.Id);
            var pieces = Enumerable.Range(0, Problem.Placements.Length).Where(p => SheetOf[p] == s).ToList();
            if (room.ForSheet[s].IsEmpty && !done)
            {
                _leftOut.Add(new(sheet.Id, room.TooLarge($"Sheet {sheet.Id}", sheet.W, sheet.H)));
            }
            else if (pieces.Count > 0 && pieces.All(p => room.WhyLeftOut[p] is not null) && !done)
            {
                _leftOut.Add(new(sheet.Id, $"Sheet {sheet.Id} is not bonded: none of its pieces can be pressed."));
            }
            else
            {
                Add(
                    new(
                        BlockKind.Bond,
                        s,
                        sheet.Load,
                        sheet.Press,
                        sheet.Peel,
                        sheet.TempC,
                        room.ForSheet[s],
                        Math.Max(Problem.Now, sheet.AvailableAt)
                    )
                );
            }
        }

        for (var p = 0; p < Problem.Placements.Length; p++)
        {
            if (room.WhyLeftOut[p] is { } reason)
            {
                _leftOut.Add(new(Problem.Placements[p].Id, reason));
            }
            else
            {
                AddPlacement(p, room.ForPlacement[p]);
            }
        }
    }

    private void AddPlacement(int p, ImmutableArray<int> presses)
    {
        var it = Problem.Placements[p];
        var now = Problem.Now;
        if (SheetOf[p] >= 0)
        {
            Add(new(BlockKind.Trim, p, Problem.Sheets[SheetOf[p]].Trim, 0, 0, 0, [], now));
        }

        Add(new(BlockKind.Place, p, it.Load, it.Press, it.Lift, it.TempC, presses, now));
        Add(new(BlockKind.Peel, p, it.Peel, 0, 0, 0, [], now));
        Add(new(BlockKind.Finish, p, it.FinishLoad, it.FinishPress, it.Unload, it.TempC, presses, now));
        Add(new(BlockKind.Inspect, p, it.Inspect, 0, 0, 0, [], now));
    }

    private void Add(Block block)
    {
        _byName.Add((block.Kind, block.Of), _blocks.Count);
        _blocks.Add(block);
    }

    // A pinned block is not begun before its second, and on no other press; one that no press of the pin can take keeps its presses.
    private void Pin()
    {
        foreach (var pin in Problem.Wishes.Pins)
        {
            if (BlockOf(pin.Op, pin.Ref) is not (>= 0 and var b))
            {
                continue;
            }

            var block = _blocks[b];
            var press = pin.Press is null ? -1 : Find(PressIds, pin.Press, "press");
            if (pin.Exactly)
            {
                _exactly[b] = pin.Start;
            }

            _blocks[b] = block with
            {
                Release = Math.Max(block.Release, pin.Start),
                Presses = block.Presses.Contains(press) ? [press] : block.Presses,
            };
        }
    }

    private static BlockKind KindOf(string op) =>
        op switch
        {
            "bond" => BlockKind.Bond,
            "trim" => BlockKind.Trim,
            "place" => BlockKind.Place,
            "peel" => BlockKind.Peel,
            "finish" => BlockKind.Finish,
            "inspect" => BlockKind.Inspect,
            _ => throw new ArgumentException($"A step cannot be called {op}.", nameof(op)),
        };

    /// <summary>Per block, the second at which it is pinned to begin, or -1; empty when none is.</summary>
    public int[] Exactly()
    {
        var free = _exactly.Where(e => FixedStart[e.Key] < 0).ToList();
        var starts = free.Count == 0 ? [] : Enumerable.Repeat(-1, Blocks.Length).ToArray();
        free.ForEach(e => starts[e.Key] = e.Value);
        return starts;
    }

    /// <summary>Per block, where it stood in the plan in force: its start, or -1, and its press.</summary>
    public (int Start, int Press)[] WantedPlaces()
    {
        var places = new (int, int)[Blocks.Length];
        Array.Fill(places, (-1, -1));
        foreach (var wanted in Problem.Wishes.Wanted)
        {
            var kind = KindOf(wanted.Op);
            var known = kind == BlockKind.Bond ? Sheets : Placements;
            if (known.TryGetValue(wanted.Ref, out var of) && Block(kind, of) is >= 0 and var b && FixedStart[b] < 0)
            {
                var press = wanted.Press is not null && PressIds.TryGetValue(wanted.Press, out var p) ? p : -1;
                places[b] = (wanted.Start, press);
            }
        }

        return places;
    }

    private (int, int)[][] Link()
    {
        var links = new List<(int, int)>[Blocks.Length];
        for (var b = 0; b < links.Length; b++)
        {
            links[b] = [];
        }

        void Follow(int first, int then, int lag)
        {
            if (first >= 0 && then >= 0)
            {
                links[first].Add((then, lag));
            }
        }

        for (var p = 0; p < Problem.Placements.Length; p++)
        {
            var place = Block(BlockKind.Place, p);
            if (place < 0)
            {
                continue;
            }

            var trim = Block(BlockKind.Trim, p);
            if (SheetOf[p] >= 0)
            {
                Follow(Block(BlockKind.Bond, SheetOf[p]), trim, 0);
                Follow(trim, place, 0);
            }

            if (AfterOf[p] >= 0)
            {
                Follow(Block(BlockKind.Inspect, AfterOf[p]), place, 0);
            }

            Follow(place, Block(BlockKind.Peel, p), Problem.Placements[p].Cool);
            Follow(Block(BlockKind.Peel, p), Block(BlockKind.Finish, p), 0);
            Follow(Block(BlockKind.Finish, p), Block(BlockKind.Inspect, p), 0);
        }

        return [.. links.Select(l => l.ToArray())];
    }

    private void ReadFixed()
    {
        Array.Fill(FixedStart, -1);
        Array.Fill(FixedPress, -1);
        foreach (var done in Problem.Fixed)
        {
            var b = BlockOf(done.Op, done.Ref);
            if (b < 0)
            {
                continue;
            }

            FixedStart[b] = done.Start;
            if (Blocks[b].Pressed)
            {
                FixedPress[b] = Find(PressIds, done.Press ?? "", "press");
            }
        }
    }

    private static Dictionary<string, int> Index(IEnumerable<string> ids, string what)
    {
        var index = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var id in ids)
        {
            if (!index.TryAdd(id, index.Count))
            {
                throw new ArgumentException($"Two of kind {what} are called {id}.");
            }
        }

        return index;
    }

    private static int Find(Dictionary<string, int> index, string id, string what) =>
        index.TryGetValue(id, out var at) ? at : throw new ArgumentException($"There is no {what} {id}.");
}
