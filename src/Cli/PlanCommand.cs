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
        };
        var planned = new PlanDay(TimeProvider.System).Run(settings.Day, options, cancellationToken);
        if (!planned.Ok)
        {
            return Terminal.Refuse(planned.Fault);
        }

        Terminal.Answer(settings.Json ? planned.Value.Json : PlanWords.Of(planned.Value));
        return planned.Value.Feasible ? Exit.Done : Exit.CannotBeMade;
    }
}
