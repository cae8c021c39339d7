using System.ComponentModel;
using System.Text;
using Coldpeel.Desk;
using Coldpeel.Desk.Sheets;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary><c>sheets</c>: pieces on sheets, or in one strip.</summary>
internal sealed class SheetsCommand : Command<SheetsCommand.Settings>
{
    internal sealed class Settings : CommandSettings
    {
        [CommandArgument(0, "<PIECES.json>")]
        [Description("Pieces, sheets, gap and turns.")]
        public string Pieces { get; init; } = "";

        [CommandOption("--out <LAYOUT.json>")]
        [Description("Write the layout to a file.")]
        public string? Out { get; init; }

        [CommandOption("--seconds <N>")]
        [Description("End the search after so many seconds; without it a run repeats exactly.")]
        public double? Seconds { get; init; }

        [CommandOption("--seed <N>")]
        [Description("Seed of the search.")]
        [DefaultValue(1UL)]
        public ulong Seed { get; init; } = 1;

        [CommandOption("--strip <HEIGHT>")]
        [Description("One strip of this height in mm whose width is the answer.")]
        public double? Strip { get; init; }

        [CommandOption("--json")]
        [Description("Answer with the layout as one JSON document on standard output.")]
        public bool Json { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellationToken)
    {
        var options = new LaySheetsOptions
        {
            SecondsLimit = settings.Seconds,
            Seed = settings.Seed,
            StripHeightMm = settings.Strip,
        };
        var laid = new LaySheets(TimeProvider.System).Run(
            settings.Pieces,
            options,
            Terminal.Progress,
            cancellationToken
        );
        if (!laid.Ok)
        {
            return Terminal.Refuse(laid.Fault);
        }

        if (settings.Out is { } path && OneFile.Put(path, Encoding.UTF8.GetBytes(laid.Value.Json)) is { } refused)
        {
            return Terminal.Refuse(refused);
        }

        Terminal.Answer(settings.Json ? laid.Value.Json : string.Join(Environment.NewLine, laid.Value.Say));
        return laid.Value.AnythingLeftOut ? Exit.CannotBeMade : Exit.Done;
    }
}
