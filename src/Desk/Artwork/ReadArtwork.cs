using System.Collections.Immutable;
using System.Text;
using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Artwork;
using Coldpeel.Files.Findings;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using Coldpeel.Workshop.Orders;

namespace Coldpeel.Desk.Artwork;

/// <summary>How artwork is read without a job.</summary>
/// <param name="Page">Page of a many-page file.</param>
/// <param name="WidthMm">Asked width.</param>
/// <param name="HeightMm">Asked height.</param>
/// <param name="Prints">What prints, as in a job file: a word, or colours as "#rrggbb,#rrggbb~12".</param>
/// <param name="Process">A process of the workshop file whose limits hold; null for the first.</param>
/// <param name="Fabric">Colour of the fabric in the picture of marks.</param>
/// <param name="PlanePath">Where the white plane goes, as PNG.</param>
/// <param name="MarksPath">Where the marks go, as SVG.</param>
public sealed record ReadArtworkOptions(
    int? Page,
    double? WidthMm,
    double? HeightMm,
    string? Prints,
    string? Process,
    string? Fabric,
    string? PlanePath,
    string? MarksPath
)
{
    /// <summary>How tints are printed: a word of <see cref="ToneWords"/>; null for solid.</summary>
    public string? Tone { get; init; }

    /// <summary>Dots an inch of the plane, 600 or 1200; null for the workshop's printer.</summary>
    public int? Dpi { get; init; }

    /// <summary>The workshop file; null for the example.</summary>
    public string? WorkshopFile { get; init; }
}

/// <summary>What artwork is, at its size, and what may not survive.</summary>
/// <param name="Name">Name of the file.</param>
/// <param name="Design">The design; null when it is larger than any sheet, as the findings say.</param>
/// <param name="Findings">Worst first.</param>
/// <param name="Limits">What it was held against.</param>
/// <param name="ProcessName">Whose limits those are.</param>
public sealed record ArtworkAnswer(
    string Name,
    Design? Design,
    ImmutableArray<Finding> Findings,
    ProcessLimits Limits,
    string ProcessName
);

/// <summary>Reads artwork, makes the white plane, tells its findings.</summary>
public static class ReadArtwork
{
    /// <summary>Reads the file and judges it.</summary>
    public static Outcome<ArtworkAnswer> Run(string path, ReadArtworkOptions options)
    {
        if (options is { WidthMm: not null, HeightMm: not null })
        {
            return new Fault(
                "--width and --height",
                "were both given.",
                "Give one: the other follows without distortion."
            );
        }

        if (options.WidthMm is not (null or (> 0 and <= 2000)) || options.HeightMm is not (null or (> 0 and <= 2000)))
        {
            return new Fault(
                "--width or --height",
                "must be above 0 and at most 2000 mm.",
                "Give the size of the artwork's page in mm."
            );
        }

        var prints = PrintsWord.Read(options.Prints ?? "auto");
        if (!prints.Ok)
        {
            return prints.Fault;
        }

        if (ToneWords.Read(options.Tone ?? "solid") is not { } tone)
        {
            return ProfileOf.NoTone(options.Tone!);
        }

        var profile = ProfileOf.Read(options.WorkshopFile, options.Process, options.Dpi);
        if (!profile.Ok)
        {
            return profile.Fault;
        }

        var (book, process) = profile.Value;

        var fabric = FabricColour.Read(options.Fabric ?? "#1d2b45");
        if (fabric is null)
        {
            return new Fault("--fabric", $"{options.Fabric} is no colour.", "Give #rrggbb or a CSS colour name.");
        }

        var name = Path.GetFileName(path);
        var asked = new DesignRequest.Drawn(
            name,
            path,
            options.Page,
            options.WidthMm,
            options.HeightMm,
            prints.Value,
            tone
        );
        var made = DrawnDesign.Make(asked, path, book, process.Limits, process.Gains.GetValueOrDefault(tone));
        if (!made.Ok)
        {
            return made.Fault;
        }

        if (made.Value.Design is not { } design)
        {
            return new ArtworkAnswer(name, null, made.Value.Findings, process.Limits, process.Name);
        }

        ImmutableArray<Finding> findings =
        [
            .. made
                .Value.Findings.Concat(DesignJudge.Judge(design, process.Limits, name))
                .OrderByDescending(f => f.Severity),
        ];
        return Write(options, design, findings, fabric.Value) is { } refused
            ? refused
            : new ArtworkAnswer(name, design, findings, process.Limits, process.Name);
    }

    /// <summary>The findings in the form of findings.json.</summary>
    public static string FindingsJson(ArtworkAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return FindingsFile.Write(answer.Findings);
    }

    private static Fault? Write(ReadArtworkOptions options, Design design, ImmutableArray<Finding> findings, Rgb fabric)
    {
        if (options.PlanePath is { } plane && OneFile.Put(plane, PlanePng.Encode(design.Plane)) is { } noPlane)
        {
            return noPlane;
        }

        return options.MarksPath is { } marks
            ? OneFile.Put(
                marks,
                Encoding.UTF8.GetBytes(
                    MarksSvg.Write(
                        design.Plane,
                        [.. findings.SelectMany(f => f.At.Select(box => (box, f.Kind, f.Say)))],
                        fabric
                    )
                )
            )
            : null;
    }
}
