using System.ComponentModel;
using Coldpeel.Desk.Press;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary><c>heat</c>: what every layer of a stack feels under the press.</summary>
internal sealed class HeatCommand : Command<HeatCommand.Settings>
{
    internal sealed class Settings : CommandSettings
    {
        [CommandArgument(0, "<STACK.json>")]
        [Description("Layers from the upper plate down, plates and stages.")]
        public string Stack { get; init; } = "";

        [CommandOption("--json")]
        [Description("Answer with one JSON document on standard output.")]
        public bool Json { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellationToken)
    {
        var answer = FeelHeat.Run(settings.Stack, cancellationToken);
        if (!answer.Ok)
        {
            return Terminal.Refuse(answer.Fault);
        }

        Terminal.Answer(settings.Json ? answer.Value.Json : string.Join(Environment.NewLine, answer.Value.Say));
        return answer.Value.Reached ? Exit.Done : Exit.CannotBeMade;
    }
}
