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
        [Description(
            "Artwork: SVG, PDF, PNG, JPEG, WebP or TIFF. Or a trial: target or wedge, each with its own --help."
        )]
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

        [CommandOption("--curve <POINTS>")]
        [Description("Tone curve of a picture: percent in it to percent printed, as 25:40,50:65; or gamma:0.8.")]
        public string? Curve { get; init; }

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
        [Description("Colour of the fabric, in the pictures and for whether white shows on it.")]
        public string? Fabric { get; init; }

        [CommandOption("--material <ID>")]
        [Description("What it goes on, by its id in the workshop file: its process, and whether it stretches too far.")]
        public string? Material { get; init; }

        [CommandOption("--plane <OUT.png>")]
        [Description("Write the white plane: black where white toner prints.")]
        public string? Plane { get; init; }

        [CommandOption("--marks <OUT.svg>")]
        [Description("Write the design on the fabric with every finding marked; as a picture when it ends in .png.")]
        public string? Marks { get; init; }

        [CommandOption("--on-fabric <OUT.png>")]
        [Description("Write the design, mended if asked, on the fabric's colour at true size.")]
        public string? OnFabric { get; init; }

        [CommandOption("--mend <KIND>")]
        [Description(
            "Mend it: thicken, open-gaps, drop-specks, fill-pinholes, solid-tints, remove-box, enlarge; may be given often."
        )]
        public string[] Mend { get; init; } = [];

        [CommandOption("--mended <OUT.png>")]
        [Description("Write the mended white plane.")]
        public string? Mended { get; init; }

        [CommandOption("--preview <OUT.png>")]
        [Description("Write before and after side by side, with what changed.")]
        public string? Preview { get; init; }

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
            Material = settings.Material,
            Curve = settings.Curve,
            Dpi = settings.Dpi,
            WorkshopFile = settings.Workshop,
            Mends = [.. settings.Mend],
            MendedPath = settings.Mended,
            PreviewPath = settings.Preview,
            OnFabricPath = settings.OnFabric,
        };
        var answer = ReadArtwork.Run(settings.File, options);
        if (!answer.Ok)
        {
            return Terminal.Refuse(answer.Fault);
        }

        Terminal.Answer(settings.Json ? Json(answer.Value) : Words(answer.Value));
        var left = answer.Value.Mended?.Findings ?? answer.Value.Findings;
        return left.Any(f => f.Severity == Severity.Stop) ? Exit.CannotBeMade : Exit.Done;
    }

    private static string Json(ArtworkAnswer answer)
    {
        var json = new JsonObject { ["file"] = answer.Name };
        if (answer.Design is { } design)
        {
            json["widthMm"] = Math.Round(design.WidthMm, 4);
            json["heightMm"] = Math.Round(design.HeightMm, 4);
            json["prints"] = design.PrintsSay.English;
            json["outlines"] = design.Vector is not null;
            json["inkMm2"] = Math.Round(design.InkMm2, 2);
        }

        json["findings"] = JsonNode.Parse(ReadArtwork.FindingsJson(answer));
        if (answer.Mended is { } mended)
        {
            json["mends"] = JsonNode.Parse(ReadArtwork.MendsJson(mended));
            json["findingsAfter"] = JsonNode.Parse(
                ReadArtwork.FindingsJson(answer with { Findings = mended.Findings })
            );
        }

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

        lines.AddRange(Told(answer.Findings));
        if (answer.Mended is { } mended)
        {
            lines.Add("mended:");
            lines.AddRange(mended.Steps.Select(s => $"  {s.Say.English}"));
            lines.Add("after that:");
            lines.AddRange(Told(mended.Findings));
        }

        return string.Join(Environment.NewLine, lines);
    }

    private static IEnumerable<string> Told(IReadOnlyCollection<Finding> findings) =>
        findings
            .Select(f =>
                $"  {(f.Severity == Severity.Stop ? "STOP" : f.Severity == Severity.Warn ? "look" : "note"), -6}{f.Say.English}"
            )
            .Prepend($"  {WorstFirst.Sum(findings)}");
}
