using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Artwork.Pdf;

/// <summary>A page of a PDF: as outlines where two independent drawings of it agree, otherwise as dots.</summary>
internal sealed class PdfArtwork : SourceArtwork
{
    private readonly SourceArtwork _drawn;
    private readonly PdfInfo _info;
    private readonly Sentence? _whyDots;

    private PdfArtwork(SourceArtwork drawn, PdfInfo info, Sentence? whyDots, IEnumerable<Sentence> notes)
    {
        (_drawn, _info, _whyDots) = (drawn, info, whyDots);
        Notes = [.. notes];
    }

    public override string Kind => "PDF";

    public override double OwnWidthMm => _info.WidthMm;

    public override double OwnHeightMm => _info.HeightMm;

    public override bool HasOwnSize => true;

    public override Sentence? SizeNote => null;

    public override IReadOnlyList<Sentence> Notes { get; }

    public override double? SourceDpiAt(double widthMm) => _drawn.SourceDpiAt(widthMm);

    public override Picture Draw(double widthMm, double heightMm, double dotsPerMm) =>
        _drawn.Draw(widthMm, heightMm, dotsPerMm);

    public override VectorInk Ink(Func<Rgb, byte, double> strength, double widthMm, double heightMm) =>
        _whyDots is null ? _drawn.Ink(strength, widthMm, heightMm) : new(null, _whyDots);

    /// <summary>Whether it is a PDF: its mark stands within the first kilobyte, as readers take it.</summary>
    public static bool Fits(ReadOnlySpan<byte> bytes) => bytes[..Math.Min(1024, bytes.Length)].IndexOf("%PDF-"u8) >= 0;

    public static Outcome<SourceArtwork> Read(byte[] bytes, string shownName, int? page) =>
        Read(bytes, shownName, page, Poppler.Installed);

    internal static Outcome<SourceArtwork> Read(byte[] bytes, string shownName, int? page, Poppler? poppler)
    {
        if (poppler is null)
        {
            return new Fault(
                shownName,
                "This is a PDF, and the programs that read it (pdfinfo, pdftocairo, pdftoppm of poppler) are not on this computer.",
                "Install poppler (Debian and Ubuntu: poppler-utils), or save the page as SVG."
            );
        }

        // ISO 32000-1, 7.5.5: the last line is the end mark; readers look for it in the last kilobyte. Without it the file was cut
        // short, and a reader would show what happens to be left.
        if (bytes.AsSpan(Math.Max(0, bytes.Length - 2048)).IndexOf("%%EOF"u8) < 0)
        {
            return new Fault(shownName, "The PDF is broken: it ends too early.", "Ask for it again.");
        }

        var folder = Directory.CreateTempSubdirectory("coldpeel-pdf-");
        try
        {
            var file = Path.Combine(folder.FullName, "in.pdf");
            File.WriteAllBytes(file, bytes);
            return new PdfPage(poppler, folder.FullName, file, shownName, page).Read();
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    internal static PdfArtwork Of(SourceArtwork drawn, PdfInfo info, Sentence? whyDots, IEnumerable<Sentence> notes) =>
        new(drawn, info, whyDots, notes);
}
