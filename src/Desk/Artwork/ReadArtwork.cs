using System.Collections.Immutable;
using System.Text;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
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
/// <param name="Fabric">Colour of the fabric in the pictures, and to be judged against white; null where neither matters.</param>
/// <param name="PlanePath">Where the white plane goes, as PNG.</param>
/// <param name="MarksPath">Where the marks go, as SVG, or as PNG by the file's ending.</param>
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

    /// <summary>A tone curve in words (<see cref="CurveWord"/>); null for none.</summary>
    public string? Curve { get; init; }

    /// <summary>Dots an inch of the plane, 600 or 1200; null for the workshop's printer.</summary>
    public int? Dpi { get; init; }

    /// <summary>A material of the workshop file that the design goes on: its process holds where none is named, and its stretch is judged; null for none.</summary>
    public string? Material { get; init; }

    /// <summary>The workshop file; null for the example.</summary>
    public string? WorkshopFile { get; init; }

    /// <summary>Mends to be made, in words (<see cref="MendWord"/>); empty for none.</summary>
    public ImmutableArray<string> Mends { get; init; } = [];

    /// <summary>Where the mended plane goes, as PNG.</summary>
    public string? MendedPath { get; init; }

    /// <summary>Where the picture of before and after goes, as PNG.</summary>
    public string? PreviewPath { get; init; }

    /// <summary>Where the picture of the design on the fabric goes, as PNG at true size.</summary>
    public string? OnFabricPath { get; init; }
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
)
{
    /// <summary>What was mended; null when nothing was asked for.</summary>
    public MendedArtwork? Mended { get; init; }
}

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

        var curve = CurveWord.Read(options.Curve);
        if (!curve.Ok)
        {
            return curve.Fault;
        }

        if (options.Mends.Length > 0 && (tone is Tone.Screen or Tone.Spray))
        {
            return new Fault(
                "--mend",
                $"cannot be asked together with --tone {options.Tone}: a mend works on the tints, before they become dots.",
                "Mend in a solid tone first, or leave --mend out."
            );
        }

        var profile = ProfileOf.Read(options.WorkshopFile, options.Process, options.Dpi, options.Material);
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

        var mends = MendWord.Read(options);
        if (!mends.Ok)
        {
            return mends.Fault;
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
        )
        {
            Curve = curve.Value.Value,
        };
        var made = DrawnDesign.Make(asked, path, book, process.Limits, process.Gains.GetValueOrDefault(tone));
        if (!made.Ok)
        {
            return made.Fault;
        }

        if (made.Value.Design is not { } design)
        {
            return new ArtworkAnswer(name, null, made.Value.Findings, process.Limits, process.Name);
        }

        if (!mends.Value.IsEmpty && MendWord.Unmendable(design, name) is { } crowd)
        {
            return crowd;
        }

        var findings = WorstFirst.Order(
            made.Value.Findings.Concat(DesignJudge.Judge(design, process.Limits, name))
                .Concat(OnFabric(design, options, fabric.Value, book))
        );
        var mended = mends.Value.IsEmpty
            ? null
            : MendArtwork.Run(mends.Value, asked, made.Value.Source!, design, book, process.Limits);
        if (mended is not null)
        {
            var after = mended.Findings.Concat(OnFabric(mended.Design, options, fabric.Value, book));
            mended = mended with { Findings = WorstFirst.Order(after) };
        }

        return Write(options, design, findings, fabric.Value, mended) is { } refused
            ? refused
            : new ArtworkAnswer(name, design, findings, process.Limits, process.Name) { Mended = mended };
    }

    /// <summary>What the fabric that was named makes of the design: whether white shows, and whether it stretches too far for its detail.</summary>
    private static IEnumerable<Finding> OnFabric(
        Design design,
        ReadArtworkOptions options,
        Rgb fabric,
        WorkshopBook book
    )
    {
        if (options.Fabric is { } named)
        {
            var (deltaE, contrast) = FabricCheck.WhiteShows(fabric);
            foreach (var finding in FabricJudge.Judge(design.Id, named, fabric, deltaE, contrast, book))
            {
                yield return finding with
                {
                    Design = design.Id,
                };
            }
        }

        if (book.Materials.FirstOrDefault(m => m.Id == options.Material) is { EdgeMmPerCm2: not null } material)
        {
            var (mmPerCm2, at) = EdgeDensity.Busiest(design.Plane);
            if (StretchJudge.Judge(design.Id, design.Id, material, mmPerCm2, at) is { } finding)
            {
                yield return finding;
            }
        }
    }

    /// <summary>The findings in the form of findings.json.</summary>
    public static string FindingsJson(ArtworkAnswer answer)
    {
        ArgumentNullException.ThrowIfNull(answer);
        return FindingsFile.Write(answer.Findings);
    }

    /// <summary>The mends in the form of docs/guide/mends.md.</summary>
    public static string MendsJson(MendedArtwork mended)
    {
        ArgumentNullException.ThrowIfNull(mended);
        return MendsFile.Write(mended);
    }

    private static Fault? Write(
        ReadArtworkOptions options,
        Design design,
        ImmutableArray<Finding> findings,
        Rgb fabric,
        MendedArtwork? mended
    ) =>
        Put(options.PlanePath, () => PlanePng.Encode(design.Plane))
        ?? Put(options.MarksPath, () => Marks(options.MarksPath!, design, findings, fabric))
        ?? Put(options.OnFabricPath, () => FabricPicture.Encode((mended?.Design ?? design).Plane, fabric))
        ?? Put(options.MendedPath, () => PlanePng.Encode(mended!.Design.Plane))
        ?? Put(options.PreviewPath, () => PreviewMends.Encode(design, findings, mended!, fabric));

    private static Fault? Put(string? path, Func<byte[]> make) => path is null ? null : OneFile.Put(path, make());

    private static byte[] Marks(string path, Design design, ImmutableArray<Finding> findings, Rgb fabric)
    {
        (BoxMm, string, string)[] marks =
        [
            .. findings.SelectMany(f => f.At.Select(box => (box, f.Kind, f.Say.English))),
        ];
        return path.EndsWith(".png", StringComparison.OrdinalIgnoreCase)
            ? MarksPng.Encode(design.Plane, marks, fabric)
            : Encoding.UTF8.GetBytes(MarksSvg.Write(design.Plane, marks, fabric));
    }
}
