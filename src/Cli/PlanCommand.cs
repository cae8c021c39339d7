using System.ComponentModel;
using Coldpeel.Desk.Press;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary><c>plan</c>: presses and hands of a day, or of what is left of it.</summary>
internal sealed class PlanCommand : Command<PlanCommand.Settings>
{
    internal sealed class Settings : CommandSettings
    {
        [CommandArgument(0, "<DAY.json>")]
        [Description("Presses, sheets, orders and placements of the day.")]
        public string Day { get; init; } = "";

        [CommandOption("--seconds <N>")]
        [Description("End the search after so many seconds; without it a run repeats exactly.")]
        public double? Seconds { get; init; }

        [CommandOption("--seed <N>")]
        [Description("Seed of the search; without it the one in the file.")]
        public ulong? Seed { get; init; }

        [CommandOption("--now <S>")]
        [Description("Plan again from this second of the day; needs --done.")]
        public int? Now { get; init; }

        [CommandOption("--done <FILE>")]
        [Description("The plan that was followed so far: steps begun before --now stay.")]
        public string? Done { get; init; }

        [CommandOption("--late <NAME@S>")]
        [Description("A sheet, press, item or order is there from this second on: S2@5400. May be given often.")]
        public string[] Late { get; init; } = [];

        [CommandOption("--spoilt <NAME[@S]>")]
        [Description(
            "An item or sheet was spoilt and is made again: I3 with a spare transfer, I3@5400 when it is printed again by then."
        )]
        public string[] Spoilt { get; init; } = [];

        [CommandOption("--added <FILE>")]
        [Description("Sheets, orders and placements to add to the day, in the forms of a day file.")]
        public string? Added { get; init; }

        [CommandOption("--calm <S>")]
        [Description(
            "Weighted seconds that a task must gain to leave its place in the plan followed so far; 2 without it."
        )]
        public int? Calm { get; init; }

        [CommandOption("--next <FILE.json>")]
        [Description("Write the day as it now is, with what was late, spoilt and added, to plan again from.")]
        public string? Next { get; init; }

        [CommandOption("--what-if <QUESTION>")]
        [Description("Plan again with other means beside the plan: hands+1, press+1, celsius+5. May be given often.")]
        public string[] WhatIf { get; init; } = [];

        [CommandOption("--times <FILE>")]
        [Description("Learn from times recorded at the bench (x-times), and tell how sure the end is.")]
        public string? Times { get; init; }

        [CommandOption("--chart <FILE.svg>")]
        [Description("Write the plan as a time chart too.")]
        public string? Chart { get; init; }

        [CommandOption("--calendar <FILE.ics>")]
        [Description("Write the plan as a calendar for the phone too.")]
        public string? Calendar { get; init; }

        [CommandOption("--pdf <FILE.pdf>")]
        [Description("Write the plan for the wall too.")]
        public string? Pdf { get; init; }

        [CommandOption("--date <YYYY-MM-DD>")]
        [Description("The day, for chart, calendar and wall; without it a calendar is for today.")]
        public string? Date { get; init; }

        [CommandOption("--start <HH:MM>")]
        [Description("The clock time of second 0; without it 08:00.")]
        public string? Start { get; init; }

        [CommandOption("--shortest")]
        [Description("Seek the shortest day first; without it promised hours come first.")]
        public bool Shortest { get; init; }

        [CommandOption("--json")]
        [Description("Answer with the plan as one JSON document on standard output.")]
        public bool Json { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellationToken)
    {
        if (settings.Now is null != settings.Done is null)
        {
            return Terminal.Refuse(
                new(
                    "--now and --done",
                    "belong together, and only one was given.",
                    "Give the second of the day and the plan followed so far."
                )
            );
        }

        var options = new PlanDayOptions
        {
            SecondsLimit = settings.Seconds,
            Seed = settings.Seed,
            Now = settings.Now,
            DonePath = settings.Done,
            Late = settings.Late,
            Spoilt = settings.Spoilt,
            AddedPath = settings.Added,
            CalmS = settings.Calm ?? new PlanDayOptions().CalmS,
            Questions = settings.WhatIf,
            TimesPath = settings.Times,
            Shortest = settings.Shortest,
        };
        var planned = new PlanDay(TimeProvider.System).Run(settings.Day, options, cancellationToken);
        if (!planned.Ok)
        {
            return Terminal.Refuse(planned.Fault);
        }

        var drawn = new DrawPlan(TimeProvider.System).Run(
            planned.Value,
            new(settings.Chart, settings.Calendar, settings.Pdf, settings.Date, settings.Start, settings.Next)
        );
        if (!drawn.Ok)
        {
            return Terminal.Refuse(drawn.Fault);
        }

        Terminal.Answer(settings.Json ? planned.Value.Json : PlanWords.Of(planned.Value));
        return planned.Value.Feasible ? Exit.Done : Exit.CannotBeMade;
    }
}
