using System.ComponentModel;
using System.Globalization;
using System.Text.Json.Nodes;
using Coldpeel.Desk.Orders;
using Coldpeel.Workshop.Findings;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary><c>make</c>: the whole job without the app.</summary>
internal sealed class MakeCommand : Command<MakeCommand.Settings>
{
    internal sealed class Settings : CommandSettings
    {
        [CommandArgument(0, "<JOB.json>")]
        [Description("The order: designs, items, what goes where.")]
        public string Job { get; init; } = "";

        [CommandOption("--out <DIR>", true)]
        [Description("Folder for the files; made when it is not there.")]
        public string Out { get; init; } = "";

        [CommandOption("--seconds <N>")]
        [Description("End the searches for sheets and day after so many seconds; without it a run repeats exactly.")]
        public double? Seconds { get; init; }

        [CommandOption("--seed <N>")]
        [Description("Seed of the searches: the same seed gives the same files.")]
        [DefaultValue(1UL)]
        public ulong Seed { get; init; } = 1;

        [CommandOption("--accept <KIND[@DESIGN]>")]
        [Description("Accept a finding by name, for all designs or one; may be given more than once.")]
        public string[] Accept { get; init; } = [];

        [CommandOption("--json")]
        [Description("Answer with one JSON document on standard output.")]
        public bool Json { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellationToken)
    {
        if (OutFolder.Wrong(settings.Out) is { } nowhere)
        {
            return Terminal.Refuse(nowhere);
        }

        var options = new MakeOptions(settings.Seconds, settings.Seed, settings.Accept);
        var made = new MakeJob(TimeProvider.System).Run(settings.Job, options, Terminal.Progress, cancellationToken);
        if (!made.Ok)
        {
            return Terminal.Refuse(made.Fault);
        }

        if (OutFolder.Put(settings.Out, made.Value.Files) is { } refused)
        {
            return Terminal.Refuse(refused);
        }

        Terminal.Answer(settings.Json ? Json(made.Value, settings.Out) : Words(made.Value, settings.Out));
        return made.Value.Complete ? Exit.Done : Exit.CannotBeMade;
    }

    private static string Json(MadeJob made, string folder) =>
        new JsonObject
        {
            ["job"] = made.Job.Name,
            ["out"] = folder,
            ["stopped"] = made.Work is null,
            ["files"] = new JsonArray([.. made.Files.Keys.Select(f => JsonValue.Create(f))]),
            ["findings"] = new JsonObject(
                made.Findings.CountBy(f => f.Severity.ToString().ToLowerInvariant())
                    .Select(c => KeyValuePair.Create(c.Key, (JsonNode?)JsonValue.Create(c.Value)))
            ),
            ["sheets"] = made.Work?.Sheets.Length ?? 0,
            ["pieces"] = made.Work?.Sheets.Sum(s => s.Pieces.Length) ?? 0,
            ["unplaced"] = made.Work?.Unplaced ?? 0,
            ["makespanS"] = made.Work?.Plan.MakespanS,
            ["boundS"] = made.Work?.Plan.BoundS,
            ["total"] = made.Work?.Quote.Total.Amount,
            ["currency"] = made.Work?.Quote.Total.Currency,
        }.ToJsonString();

    private static string Words(MadeJob made, string folder)
    {
        var lines = new List<string> { $"{made.Job.Name} for {made.Job.Customer}, due {made.Job.Due:yyyy-MM-dd}", "" };
        foreach (var finding in made.Findings.Where(f => f.Severity != Severity.Note))
        {
            var weight =
                finding.Accepted ? "accepted"
                : finding.Severity == Severity.Stop ? "STOP"
                : "look";
            lines.Add($"  {weight, -9}{finding.Say.English}");
        }

        var notes = made.Findings.Count(f => f.Severity == Severity.Note);
        if (notes > 0)
        {
            lines.Add($"  and {notes} note{(notes == 1 ? "" : "s")} in findings.json");
        }

        lines.Add("");
        if (made.Work is not { } work)
        {
            var names = made
                .Findings.Where(f => f.Severity == Severity.Stop && !f.Accepted)
                .Select(f => (f.Design ?? f.Item) is { } about ? $"{f.Kind}@{about}" : f.Kind)
                .Distinct();
            lines.Add(
                $"Not made. What stands in the way is in {Path.Combine(folder, "findings.json")}; mend it, or, when you take it on yourself, accept it by name: {string.Join(" ", names.Select(n => $"--accept {n}"))}"
            );
            return string.Join(Environment.NewLine, lines);
        }

        var (pieces, sheets, day) = (work.Sheets.Sum(s => s.Pieces.Length), work.Sheets.Length, work.Plan);
        lines.Add(
            $"  {pieces} pieces on {sheets} sheet{(sheets == 1 ? "" : "s")}"
                + (work.Unplaced > 0 ? $", {work.Unplaced} without a place (see sheets.json)" : "")
        );
        lines.Add($"  a day of {Span(day.MakespanS)} at the presses; no plan can be shorter than {Span(day.BoundS)}");
        lines.AddRange(day.LeftOut.Select(left => $"  not planned: {left.Ref}: {left.Why}"));
        lines.Add($"  {work.Quote.Total} with tax");
        lines.Add("");
        lines.Add($"In {folder}: {string.Join(", ", made.Files.Keys)}");
        return string.Join(Environment.NewLine, lines);
    }

    private static string Span(int seconds) =>
        seconds >= 3600
            ? string.Create(CultureInfo.InvariantCulture, $"{seconds / 3600} h {seconds / 60 % 60:00} min")
            : string.Create(CultureInfo.InvariantCulture, $"{seconds / 60} min");
}
