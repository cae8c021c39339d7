using System.Collections.Immutable;
using System.Globalization;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Files.Paper;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Press;

/// <summary>A press heats up or cools down to another set-point; seconds of the day.</summary>
internal sealed record SetpointChange(string Press, int FromC, int ToC, int Start, int End);

/// <summary>A day plan looked up: names, short numbers, temperatures, set-point changes and how full the rack is.</summary>
internal sealed class DayWords
{
    private readonly DayPlanPaper _paper;
    private readonly Dictionary<string, int> _temps = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string> _tags = new(StringComparer.Ordinal);
    private readonly Dictionary<string, string?> _sheets = new(StringComparer.Ordinal);
    private readonly Dictionary<string, int> _rack = new(StringComparer.Ordinal);
    private readonly Dictionary<(string Op, string Ref), int> _closed = [];

    public DayWords(DayPlanPaper paper)
    {
        _paper = paper;
        Steps = [.. Given(paper.Plan.Steps).OrderBy(s => s.Start).ThenBy(s => s.End)];
        LeftOut = Given(paper.Plan.LeftOut);
        foreach (var sheet in Given(paper.Problem.Sheets))
        {
            _temps.TryAdd(sheet.Id, sheet.TempC);
        }

        foreach (var placement in Given(paper.Problem.Placements))
        {
            _temps.TryAdd(placement.Id, placement.TempC);
            _sheets.TryAdd(placement.Id, placement.Sheet);
        }

        foreach (var step in Steps)
        {
            if (step.Rack is { } place)
            {
                _rack.TryAdd(step.Ref, place);
            }

            if (step.Op.EndsWith("press", StringComparison.Ordinal))
            {
                _closed.TryAdd((step.Op, step.Ref), step.End - step.Start);
            }
        }

        // Placements are 1, 2 … in the order in which they are first touched; sheets keep the numbers they have on paper, else S1, S2 ….
        var known = Given(paper.Problem.Sheets).All(s => s.Id.Length <= 4);
        var (sheets, placements) = (0, 0);
        foreach (var step in Steps)
        {
            if (!_tags.ContainsKey(step.Ref))
            {
                var isSheet = step.Op.StartsWith("bond.", StringComparison.Ordinal);
                var n = isSheet ? ++sheets : ++placements;
                _tags[step.Ref] =
                    isSheet && known ? step.Ref : (isSheet ? "S" : "") + n.ToString(CultureInfo.InvariantCulture);
            }
        }

        Changes = [.. Given(paper.Problem.Presses).SelectMany(ChangesOf)];
    }

    public ImmutableArray<DayStep> Steps { get; }

    public ImmutableArray<DayLeftOut> LeftOut { get; }

    public ImmutableArray<SetpointChange> Changes { get; }

    /// <summary>Breaks, by start.</summary>
    public ImmutableArray<DayPause> Breaks => [.. Given(_paper.Plan.Breaks).OrderBy(b => b.From).ThenBy(b => b.Hand)];

    /// <summary>Orders that are done after they were due, and by how many seconds; the latest first.</summary>
    public ImmutableArray<(string Order, int Due, int LateS)> Late
    {
        get
        {
            var orderOf = Given(Problem.Placements).ToDictionary(p => p.Id, p => p.Order, StringComparer.Ordinal);
            var done = Steps
                .Where(s => s.Op == "inspect")
                .GroupBy(s => orderOf[s.Ref])
                .ToDictionary(g => g.Key, g => g.Max(s => s.End), StringComparer.Ordinal);
            return
            [
                .. Given(Problem.Orders)
                    .Where(o => done.GetValueOrDefault(o.Id) > o.Due)
                    .Select(o => (o.Id, o.Due, done[o.Id] - o.Due))
                    .OrderByDescending(o => o.Item3),
            ];
        }
    }

    /// <summary>The sentence as the plan is worded.</summary>
    public string this[Sentence sentence] => _paper.Words[sentence];

    /// <summary>How the plan is worded.</summary>
    public Wording Words => _paper.Words;

    public DayProblem Problem => _paper.Problem;

    public TimeOnly DayStart => _paper.DayStart;

    public string Clock(int second) => Days.Clock(_paper.DayStart, second);

    /// <summary>Words for a sheet or placement.</summary>
    public string Name(string id) => _paper.Names.TryGetValue(id, out var name) && name.Length > 0 ? name : id;

    /// <summary>The short number on the timeline.</summary>
    public string Tag(string id) => _tags.GetValueOrDefault(id, id);

    public int? Celsius(string id) => _temps.TryGetValue(id, out var c) ? c : null;

    /// <summary>Seconds the press stays closed for a sheet (bond) or a placement (first press or finish).</summary>
    public int? Closed(string op, string id) =>
        op switch
        {
            "bond.load" => _closed.TryGetValue(("bond.press", id), out var s) ? s : null,
            "load" => _closed.TryGetValue(("press", id), out var s) ? s : null,
            "finish.load" => _closed.TryGetValue(("finish.press", id), out var s) ? s : null,
            _ => null,
        };

    /// <summary>The sheet that a placement's piece is cut from; null for one from the shelf.</summary>
    public string? SheetOf(string id) => _sheets.GetValueOrDefault(id);

    /// <summary>The rack place where a placement cools.</summary>
    public int? RackPlace(string id) => _rack.TryGetValue(id, out var place) ? place : null;

    /// <summary>The label printed beside a placement's piece, where it is known.</summary>
    public string? Label(string id) => _paper.Labels.TryGetValue(id, out var label) && label.Length > 0 ? label : null;

    /// <summary>The same in one word, for the list.</summary>
    public static Sentence Short(string op) =>
        op switch
        {
            "bond.load" => (Sentence)$"bond",
            "lift" => $"lift",
            "peel" => $"peel",
            "finish.load" => $"finish",
            "unload" => $"off",
            _ => Verb(op),
        };

    /// <summary>What hands do, in the trade's words.</summary>
    public static Sentence Verb(string op) =>
        op switch
        {
            "bond.load" => (Sentence)$"lay for bonding",
            "bond.press" => $"bond",
            "bond.peel" => $"hot peel",
            "trim" => $"trim",
            "load" => $"load",
            "press" => $"press",
            "lift" => $"lift to the rack",
            "cool" => $"cool",
            "peel" => $"cold peel",
            "finish.load" => $"load for the finish press",
            "finish.press" => $"finish press",
            "unload" => $"take off",
            "inspect" => $"inspect",
            _ => op,
        };

    /// <summary>How many rack places are held from a second on: an item holds one from its lift to its finish press.</summary>
    public List<(int Second, int Held)> Rack()
    {
        var events = new SortedDictionary<int, int>();
        foreach (var item in Steps.Where(s => s.Op is "lift" or "cool" or "peel" or "finish.load").GroupBy(s => s.Ref))
        {
            var from = item.Where(s => s.Op == "lift").Select(s => s.End).Append(int.MaxValue).Min();
            from = from == int.MaxValue ? item.Min(s => s.Start) : from;
            var to = item.Where(s => s.Op == "finish.load").Select(s => s.Start).Append(int.MaxValue).Min();
            to = to == int.MaxValue ? item.Max(s => s.End) : to;
            events[from] = events.GetValueOrDefault(from) + 1;
            events[to] = events.GetValueOrDefault(to) - 1;
        }

        var held = 0;
        return [.. events.Select(e => (e.Key, held += e.Value))];
    }

    private IEnumerable<SetpointChange> ChangesOf(DayPress press)
    {
        var (at, free) = (press.SetpointC, Math.Max(press.FreeAt, Problem.Now));
        foreach (var step in Steps.Where(s => s.Press == press.Id && s.Op != "cool"))
        {
            if (Celsius(step.Ref) is { } want && want != at)
            {
                var rate = want > at ? Problem.HeatCPerMin : Problem.CoolCPerMin;
                var seconds = rate > 0 ? (int)Math.Ceiling(Math.Abs(want - at) * 60 / rate) : 0;
                yield return new(press.Id, at, want, free, Math.Min(free + seconds, Math.Max(step.Start, free)));
                at = want;
            }

            free = Math.Max(free, step.End);
        }
    }

    private static ImmutableArray<T> Given<T>(ImmutableArray<T> array) => array.IsDefault ? [] : array;
}
