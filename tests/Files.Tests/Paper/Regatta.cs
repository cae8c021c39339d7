using System.Collections.Immutable;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Press.Day;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Press;
using Coldpeel.Workshop.Quotes;
using Coldpeel.Workshop.Wash;

namespace Coldpeel.Files.Tests.Paper;

/// <summary>An invented rowing crew and its invented order: what the papers are tried on.</summary>
internal static class Regatta
{
    public const string LongName = "Anneliese Freifrau von Hohenstein-Brzęczyszczykiewicz";

    public static readonly string[] Crew =
    [
        LongName,
        "Søren Ærøskøbing",
        "Zoë Façade-L'Étang",
        "Łukasz Wiśniewski-Żółć",
        "Jörg Übelhör",
        "Åse Ødegård",
        "Þórdís Guðmundsdóttir",
        "Bo",
    ];

    public static ProcessStep[] Steps { get; } =
    [
        new(
            StepKind.Print,
            "coated side up, 100 %, film setting",
            null,
            40,
            null,
            null,
            0,
            0,
            "common practice, no source"
        ),
        new(
            StepKind.Bond,
            "film print up, adhesive sheet on top",
            150,
            120,
            30,
            "paper",
            20,
            0,
            "common practice, no source"
        ),
        new(
            StepKind.HotPeel,
            "one smooth even pull while both lie on the hot plate",
            null,
            25,
            null,
            null,
            0,
            0,
            "common practice, no source"
        ),
        new(
            StepKind.Trim,
            "round each design, stray glue removed",
            null,
            25,
            null,
            null,
            0,
            0,
            "common practice, no source"
        ),
        new(StepKind.PrePress, "dry and flat", 130, 5, 40, null, 8, 4, "own trial of 3 March"),
        new(StepKind.Press, "place, cover, close", 130, 25, 40, "release sheet", 30, 8, "own trial of 3 March"),
        new(StepKind.Cool, "lie flat until fully cold", null, 120, null, null, 0, 0, "common practice, no source"),
        new(
            StepKind.ColdPeel,
            "fold an edge back, roll the film off slowly",
            null,
            25,
            null,
            null,
            0,
            0,
            "common practice, no source"
        ),
        new(
            StepKind.FinishPress,
            "drives the print into the fibre",
            130,
            10,
            null,
            "matt release sheet",
            10,
            5,
            "own trial of 3 March"
        ),
        new(StepKind.Inspect, "look, stretch, record", null, 10, null, null, 0, 0, "common practice, no source"),
    ];

    /// <summary>A design 90 × 60 mm: a ring with a bar, so that mirroring and turning would show.</summary>
    public static Design Oar { get; } = MakeOar();

    public static PlacementRule Place(string name, string sketch, double down, double across) =>
        new(
            name,
            120,
            120,
            "the collar seam at the shoulder",
            down,
            across == 0
                ? "centred"
                : $"centred {Math.Abs(across)} mm {(across > 0 ? "right" : "left")} of the centre line (as you look at it)",
            across,
            400,
            500,
            sketch,
            "common practice, no source"
        );

    public static Ticket Ticket(int number, int rows, params TicketPlace[] places) =>
        new(
            number,
            "Regatta crew kit, spring",
            "Ruderclub Blaue Möwe e. V.",
            new DateOnly(2026, 12, 4),
            "gilet",
            $"{rows} × gilet, navy",
            rows,
            "polyester softshell, 94 % PES 6 % EL",
            "#1f2a44",
            number % 2 == 1,
            [.. Steps],
            [.. places],
            [
                .. Enumerable
                    .Range(1, rows)
                    .Select(i => new TicketRow(i, Crew[(i - 1) % Crew.Length], [$"A1-{i:00}", $"B1-{i:00}"])),
            ],
            [
                "Dyed polyester: dye may wander into the print. Press a spare first and look again after a day.",
                "Rich in elastane: only after a trial.",
                .. Tickets.Always,
            ],
            $"http://workshop.local:5080/tickets/regatta-crew-kit/{number}"
        );

    public static Quote Quote(int lines, string currency = "EUR") =>
        new(
            [
                .. Enumerable
                    .Range(1, lines)
                    .Select(i => new QuoteLine(
                        "film",
                        $"transfer film, sheet size {i}",
                        3.25m * i,
                        "sheet",
                        new(0.8415m, currency),
                        new Money(3.25m * i * 0.8415m, currency).Rounded(),
                        "3 sheets of 320 × 450 mm at 5.84 a m², and the share that is spoilt by trimming too close"
                    )),
            ],
            new(1234.56m, currency),
            19,
            new(234.57m, currency),
            new(1469.13m, currency),
            "each line to the minor unit, half away from zero; tax once on the net sum"
        );

    public static CareSlip Slip(string title) =>
        new(
            "gilet",
            title,
            [
                new("Washing", "at most 30 °C, mild"),
                new("Bleaching", "do not bleach"),
                new("Drying", "do not tumble dry; line dry"),
                new("Ironing", "at most 110 °C, inside out, never on the print"),
                new("Professional care", "do not dry clean"),
            ],
            ["Wash inside out, cold.", "Hang up wet, do not wring.", "Wait a day before the first wash."],
            "Expect 35 to 45 such washes (common practice, no source)."
        )
        {
            Limits = new(30, 1, 0, 0, 110, false),
        };

    /// <summary>One press, one pair of hands: two at a time on the rack, worked out by hand below.</summary>
    public static (DayProblem Problem, DayPlan Plan) Day(int gilets)
    {
        var placements = Enumerable
            .Range(1, gilets)
            .Select(i => new DayPlacement(
                $"J{i}",
                $"I{i}",
                "O1",
                "S1",
                null,
                120,
                80,
                130,
                30,
                25,
                8,
                60,
                25,
                10,
                10,
                5,
                10
            ))
            .ToImmutableArray();
        var sheet = new DaySheet("S1", 40, 380, 480, 150, 20, 120, 25, 25);
        var problem = new DayProblem(
            "regatta",
            0,
            12,
            3,
            1,
            6,
            [new("P1", 400, 500, 140, 0), new("P2", 150, 150, 130, 0)],
            [sheet],
            [new("O1", 9000, 1)],
            placements,
            []
        );
        var steps = new List<DayStep>();
        var t = 50;
        void Do(string op, string id, int seconds, string? press, int? hand, int? rack = null)
        {
            steps.Add(new(op, id, t, t + seconds, press, hand, rack));
            t += seconds;
        }

        Do("bond.load", "S1", 20, "P1", 1);
        Do("bond.press", "S1", 120, "P1", null);
        Do("bond.peel", "S1", 25, "P1", 1);
        foreach (var p in placements)
        {
            Do("trim", p.Id, 25, null, 1);
        }

        t += 400; // P1 cools from 150 to 130 °C at 3 °C a minute
        foreach (var p in placements)
        {
            Do("load", p.Id, 30, "P1", 1);
            Do("press", p.Id, 25, "P1", null);
            Do("lift", p.Id, 8, "P1", 1);
            steps.Add(new("cool", p.Id, t, t + 60, null, null, 1));
            t += 60;
            Do("peel", p.Id, 25, null, 1, 1);
            Do("finish.load", p.Id, 10, "P1", 1);
            Do("finish.press", p.Id, 10, "P1", null);
            Do("unload", p.Id, 5, "P1", 1);
            Do("inspect", p.Id, 10, null, 1);
        }

        return (problem, new([.. steps], [new("J99", "needs 500 × 600 mm: no plate is so large")], t, t / 2, false));
    }

    private static Design MakeOar()
    {
        const int width = 900;
        const int height = 600;
        var dots = new byte[width * height];
        for (var y = 0; y < height; y++)
        {
            for (var x = 0; x < width; x++)
            {
                var r = Math.Sqrt(((x - 250.0) * (x - 250)) + ((y - 300.0) * (y - 300)));
                dots[(y * width) + x] =
                    (r is > 150 and < 240) || (y is > 270 and < 330 && x > 400) ? (byte)255 : (byte)0;
            }
        }

        return new(
            "oar",
            90,
            60,
            new(width, height, dots, 10),
            null,
            Region.Of(new PointMm(0, 0), new(90, 0), new(90, 60), new(0, 60)),
            1500,
            "dark prints",
            []
        );
    }
}
