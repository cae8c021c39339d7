namespace Coldpeel.Craft.Press.Day;

/// <summary>Reads a day at the presses as a shop.</summary>
internal static class ShopOfDay
{
    public static ShopModel Of(DayModel day)
    {
        var links = new List<ShopLink>();
        for (var b = 0; b < day.Blocks.Length; b++)
        {
            links.AddRange(day.Successors[b].Select(s => new ShopLink(b, s.Block, s.Lag, false)));
        }

        var holds = new List<(int, int)>();
        var dues = day.Problem.Orders.Select(_ => new List<int>()).ToArray();
        for (var p = 0; p < day.Problem.Placements.Length; p++)
        {
            if (day.Block(BlockKind.Place, p) is >= 0 and var place)
            {
                holds.Add((place, day.Block(BlockKind.Finish, p)));
                dues[day.OrderOf[p]].Add(day.Block(BlockKind.Inspect, p));
            }
        }

        return new ShopModel
        {
            Now = day.Problem.Now,
            Blocks = day.Blocks,
            Links = [.. links],
            Machines = Machines(day),
            SetUp = day.SetUp,
            FixedStart = day.FixedStart,
            FixedMachine = day.FixedPress,
            Hands = day.Problem.Hands,
            Away =
            [
                .. day.Problem.Wishes.Breaks.SelectMany(b =>
                    Enumerable.Repeat((b.From, b.To), Math.Min(b.Hands, day.Problem.Hands))
                ),
            ],
            Wanted = day.Problem.Wishes.Wanted.IsEmpty ? [] : day.WantedPlaces(),
            CalmS = day.Problem.Wishes.CalmS,
            Exactly = day.Exactly(),
            Places = day.Problem.RackPlaces,
            Holds = [.. holds],
            MustFree = [.. MustFree(day, holds)],
            Dues =
            [
                .. day
                    .Problem.Orders.Select((o, i) => new ShopDue(o.Due, o.Weight, [.. dues[i]]))
                    .Where(d => d.Last.Length > 0),
            ],
        };
    }

    // When what runs now comes off its press, a rack place must be free: more than lie there then must have left by that second.
    private static IEnumerable<(int, int)> MustFree(DayModel day, List<(int Place, int Finish)> holds)
    {
        var lifts = holds
            .Where(h => day.FixedStart[h.Place] >= 0)
            .Select(h => day.FixedStart[h.Place] + day.Blocks[h.Place].Length)
            .Order()
            .ToList();
        return lifts
            .Select((second, i) => (Second: second, Frees: i + 1 - day.Problem.RackPlaces))
            .Where(m => m.Second >= day.Problem.Now && m.Frees > 0);
    }

    /// <summary>From when each press can take new work, and where it then stands.</summary>
    public static ShopMachine[] Machines(DayModel day)
    {
        var machines = day
            .Problem.Presses.Select(p => new ShopMachine(Math.Max(p.FreeAt, day.Problem.Now), p.SetpointC))
            .ToArray();
        foreach (var b in Enumerable.Range(0, day.Blocks.Length).OrderBy(b => day.FixedStart[b]))
        {
            if (day.FixedStart[b] >= 0 && day.FixedPress[b] is >= 0 and var p)
            {
                var ready = Math.Max(day.FixedStart[b] + day.Blocks[b].Length, day.Problem.Presses[p].FreeAt);
                machines[p] = new(ready, day.Blocks[b].TempC);
            }
        }

        return machines;
    }
}
