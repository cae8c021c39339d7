using System.Globalization;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Artwork.Pdf;

/// <summary>One reading of one page: asks poppler for outlines and for dots and holds them against each other.</summary>
internal sealed class PdfPage(Poppler poppler, string folder, string file, string shownName, int? page)
{
    /// <summary>How long the reading programs may work for one page in all, its fine drawing with it: that is made as fine as the time left allows, with a note.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(2.5);

    /// <summary>Pixels in a millimetre at which drawings are compared: one is then 0.1 mm, less than any process keeps.</summary>
    private const double ComparePerMm = 10;

    /// <summary>Pixels of a comparison at most.</summary>
    private const double MostCompared = 9e6;

    /// <summary>Pixels of the page's own drawing: 600 an inch for A4, more for small pages, which may be made larger.</summary>
    private const double FinePixels = 36e6;
    private const double FinePerMm = 600 / 25.4;
    private const double FinestPerMm = 2400 / 25.4;
    private const double UsualPixels = 6e6;

    /// <summary>Bytes that a drawing may have: all its pixels unpacked, and some room.</summary>
    private const long MostDrawn = 4 * (long)FinePixels + 10_000_000;

    private readonly Deadline _until = new(Patience);
    private readonly List<Sentence> _notes = [];

    public Outcome<SourceArtwork> Read()
    {
        var asked = PdfInfo.Of(poppler, file, shownName, page, _until);
        if (!asked.Ok)
        {
            return asked.Fault;
        }

        var info = asked.Value;
        Say(info);
        var perMm = Math.Min(ComparePerMm, Math.Sqrt(MostCompared / (info.WidthMm * info.HeightMm)));
        var judged = Splash("judge", perMm, info);
        if (!judged.Ok)
        {
            return judged.Fault;
        }

        var svg = Outlines();
        Sentence why;
        if (svg.Ok)
        {
            if (Same(svg.Value, judged.Value, info, perMm))
            {
                return PdfArtwork.Of(svg.Value, info, null, [.. _notes, .. svg.Value.Notes]);
            }

            why = "Drawn from its outlines the page looks otherwise than as a picture, so the picture is taken.";
        }
        else
        {
            why = $"Its outlines cannot be taken: {svg.Fault.What}";
        }

        return AsDots(info, judged.Value, perMm, why);
    }

    private void Say(PdfInfo info)
    {
        if (Pages.Note(page, info.Pages) is { } note)
        {
            _notes.Add(note);
        }

        if (info.Trimmed)
        {
            _notes.Add(
                "The page is larger than the size it is cut to (its trim box): the whole page is taken, with whatever lies outside the cut."
            );
        }
    }

    private Outcome<SourceArtwork> Outlines()
    {
        var made = Path.Combine(folder, "page.svg");
        var run = BoundedRun.Of(
            poppler.Cairo,
            ["-svg", "-noshrink", "-nocenter", .. OnePage(), file, made],
            _until,
            made
        );
        return PdfInfo.Broken(run, shownName) is { } fault ? fault
            : File.Exists(made) ? SvgArtwork.Read(File.ReadAllBytes(made), shownName)
            : new Fault(shownName, "The PDF's page cannot be drawn.", "Ask for it again.");
    }

    /// <summary>The page as a picture with transparency, as fine as its size asks for and the time allows.</summary>
    private Outcome<SourceArtwork> AsDots(PdfInfo info, SourceArtwork judged, double perMm, Sentence why)
    {
        var area = info.WidthMm * info.HeightMm;
        var fine = Math.Min(
            Math.Max(FinePerMm, Math.Min(FinestPerMm, Math.Sqrt(UsualPixels / area))),
            Math.Sqrt(FinePixels / area)
        );
        var before = _until.Left;
        var through = Cairo("alpha", perMm, info);
        var clear = through.Ok && Same(through.Value, judged, info, perMm);
        if (!clear)
        {
            // On white paper then: the engine that judges draws no transparency.
            _notes.Add(
                "The page is taken on white paper, because two readers draw its transparency differently: look whether what prints is right."
            );
        }

        // Time grows with the dots; a third is kept for what grows otherwise.
        var took = Math.Max((before - _until.Left).TotalSeconds, 0.05);
        var affordable = perMm * Math.Sqrt(Math.Max(0, 0.67 * _until.Left.TotalSeconds / took));
        fine = Math.Max(perMm, Math.Min(fine, affordable));
        var made = clear ? Cairo("page", fine, info) : Splash("page", fine, info);
        var (picture, drawnAt) =
            made.Ok ? (made.Value, fine)
            : clear ? (through.Value!, perMm)
            : (judged, perMm);
        _notes.Add($"The page is taken as a picture of {drawnAt * 25.4:0} pixels an inch. {why}");
        return PdfArtwork.Of(picture, info, "its page is taken as a picture.", _notes);
    }

    private static bool Same(SourceArtwork one, SourceArtwork other, PdfInfo info, double perMm) =>
        DrawingsAgree.Of(one.Draw(info.WidthMm, info.HeightMm, perMm), other.Draw(info.WidthMm, info.HeightMm, perMm));

    /// <summary>The page as dots on white paper.</summary>
    private Outcome<SourceArtwork> Splash(string name, double perMm, PdfInfo info) =>
        Dots(poppler.Splash, [], name, ".ppm", BarePixels.Pixmap, perMm, info);

    /// <summary>The page as dots with its transparency.</summary>
    private Outcome<SourceArtwork> Cairo(string name, double perMm, PdfInfo info) =>
        Dots(
            poppler.Cairo,
            ["-tiff", "-tiffcompression", "none", "-transp"],
            name,
            ".tif",
            BarePixels.Tiff,
            perMm,
            info
        );

    private Outcome<SourceArtwork> Dots(
        string program,
        string[] how,
        string name,
        string ending,
        Func<string, (int Width, int Height, byte[] Rgba)?> read,
        double perMm,
        PdfInfo info
    )
    {
        var made = Path.Combine(folder, name);
        string[] size = ["-scale-to-x", Whole(info.WidthMm * perMm), "-scale-to-y", Whole(info.HeightMm * perMm)];
        var run = BoundedRun.Of(
            program,
            [.. how, "-cropbox", "-singlefile", .. size, .. OnePage(), file, made],
            _until,
            made + ending,
            MostDrawn
        );
        if (PdfInfo.Broken(run, shownName) is { } fault)
        {
            return fault;
        }

        var drawn = File.Exists(made + ending) ? read(made + ending) : null;
        // A page at 600 an inch fills 140 MB: not kept beside its pixels.
        File.Delete(made + ending);
        return drawn is var (width, height, rgba)
            ? PictureArtwork.Of(new ImageHeader("PDF", width, height, perMm, perMm), rgba)
            : new Fault(shownName, "The PDF's page cannot be drawn.", "Ask for it again.");
    }

    private string[] OnePage()
    {
        var number = (page ?? 1).ToString(CultureInfo.InvariantCulture);
        return ["-f", number, "-l", number];
    }

    private static string Whole(double pixels) =>
        Math.Max(1, (int)Math.Ceiling(pixels - 1e-6)).ToString(CultureInfo.InvariantCulture);
}
