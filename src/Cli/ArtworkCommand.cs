using System.ComponentModel;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using Coldpeel.Desk.Artwork;
using Coldpeel.Workshop.Findings;
using Spectre.Console.Cli;

namespace Coldpeel.Cli;

/// <summary><c>artwork</c>: what a file is, what prints of it, what may not survive.</summary>
internal sealed class ArtworkCommand : Command<ArtworkCommand.Settings>
{
    internal sealed class Settings : CommandSettings
    {
        [CommandArgument(0, "<FILE>")]
        [Description("Artwork: SVG, PDF, PNG, JPEG, WebP or TIFF. Or a trial: target or wedge, each with its own --help.")]
        public string File { get; init; } = "";

        [CommandOption("--page <N>")]
        [Description("Page of a PDF or TIFF, from 1; the first when left out.")]
        public int? Page { get; init; }

        [CommandOption("--width <MM>")]
        [Description("Width of the artwork's page in mm; without width and height the file's own size.")]
        public double? Width { get; init; }

        [CommandOption("--height <MM>")]
        [Description("Height of the artwork's page in mm.")]
        public double? Height { get; init; }

        [CommandOption("--prints <HOW>")]
        [Description("dark, light, opaque, auto, or colours: '#1d2b45,#6d1f2c~12' (tolerance after ~).")]
        public string? Prints { get; init; }

        [CommandOption("--tone <HOW>")]
        [Description(
            "solid, screen (lines of dots that carry glue), spray (scattered ones) or grey (the printer's own)."
        )]
        public string? Tone { get; init; }

        [CommandOption("--dpi <N>")]
        [Description("Dots an inch of the plane: 600 or 1200; without it those of the workshop's printer.")]
        public int? Dpi { get; init; }

        [CommandOption("--workshop <FILE>")]
        [Description("The workshop file; without it the example workshop.")]
        public string? Workshop { get; init; }

        [CommandOption("--profile <NAME>")]
        [Description("The process whose limits hold, by its name in the workshop file.")]
        public string? Profile { get; init; }

        [CommandOption("--fabric <COLOUR>")]
        [Description("Colour of the fabric in the picture of marks.")]
        public string? Fabric { get; init; }

        [CommandOption("--plane <OUT.png>")]
        [Description("Write the white plane: black where white toner prints.")]
        public string? Plane { get; init; }

        [CommandOption("--marks <OUT.svg>")]
        [Description("Write the design on the fabric with every finding marked.")]
        public string? Marks { get; init; }

        [CommandOption("--json")]
        [Description("Answer with one JSON document on standard output.")]
        public bool Json { get; init; }
    }

    public override int Execute(CommandContext context, Settings settings, CancellationToken cancellationToken)
    {
        var options = new ReadArtworkOptions(
            settings.Page,
            settings.Width,
            settings.Height,
            settings.Prints,
            settings.Profile,
            settings.Fabric,
            settings.Plane,
            settings.Marks
        )
        {
            Tone = settings.Tone,
            Dpi = settings.Dpi,
            WorkshopFile = settings.Workshop,
        };
        var answer = ReadArtwork.Run(settings.File, options);
        if (!answer.Ok)
        {
            return Terminal.Refuse(answer.Fault);
        }

        Terminal.Answer(settings.Json ? Json(answer.Value) : Words(answer.Value));
        return answer.Value.Findings.Any(f => f.Severity == Severity.Stop) ? Exit.CannotBeMade : Exit.Done;
    }

    private static string Json(ArtworkAnswer answer)
    {
        var json = new JsonObject { ["file"] = answer.Name };
        if (answer.Design is { } design)
        {
            json["widthMm"] = Math.Round(design.WidthMm, 4);
            json["heightMm"] = Math.Round(design.HeightMm, 4);
            json["prints"] = design.PrintsSay;
            json["outlines"] = design.Vector is not null;
            json["inkMm2"] = Math.Round(design.InkMm2, 2);
        }

        json["findings"] = JsonNode.Parse(ReadArtwork.FindingsJson(answer));
        return json.ToJsonString(new JsonSerializerOptions { WriteIndented = true });
    }

    private static string Words(ArtworkAnswer answer)
    {
        var lines = new List<string>();
        if (answer.Design is { } design)
        {
            lines.Add(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{answer.Name}: {design.WidthMm:0.##} × {design.HeightMm:0.##} mm, {design.InkMm2 / 100:0.#} cm² of toner, {(design.Vector is null ? "printed dot by dot" : "printed as outlines")}"
                )
            );
            lines.Add($"  {design.PrintsSay}");
            lines.Add($"  held against: {answer.ProcessName}");
        }

        lines.AddRange(
            answer.Findings.Select(f =>
                $"  {(f.Severity == Severity.Stop ? "STOP" : f.Severity == Severity.Warn ? "look" : "note"), -6}{f.Say}"
            )
        );
        if (answer.Findings.IsEmpty)
        {
            lines.Add("  nothing found that will not survive");
        }

        return string.Join(Environment.NewLine, lines);
    }
}
