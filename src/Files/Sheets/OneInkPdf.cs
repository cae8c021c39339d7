using System.Globalization;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text;
using Coldpeel.Craft.Geometry;

namespace Coldpeel.Files.Sheets;

/// <summary>A PDF file that knows one ink: pages, forms and pictures in DeviceGray, the same bytes for the same input.</summary>
/// <remarks>
/// Objects and cross-reference table by ISO 32000-1 (PDF 1.7), 7.5. No dates, no random identifier: the file identifier is a
/// digest of the content. Viewers are asked to print at 100 % (12.2, PrintScaling none), on one side, from the tray of that size.
/// </remarks>
internal sealed class OneInkPdf(string title)
{
    /// <summary>PDF points in a millimetre.</summary>
    public const double PointsPerMm = 72 / 25.4;

    private const int Catalog = 1;
    private const int Pages = 2;
    private const int Info = 3;

    // The first three objects name others, so they are written when all is known.
    private readonly List<byte[]> _objects =
    [
        [],
        [],
        [],
    ];
    private readonly List<int> _pages = [];

    /// <summary>A drawing that can be used many times; its colour is the one set where it is used.</summary>
    /// <param name="box">All that it draws lies within, in mm.</param>
    /// <param name="content">The drawing.</param>
    /// <param name="uses">What it draws by name.</param>
    public int AddForm(BoxMm box, InkLines content, IReadOnlyDictionary<string, int> uses) =>
        AddStream(
            $"/Type /XObject /Subtype /Form /FormType 1 /BBox [{Numbers(box)}] /Resources {Resources(uses)}",
            content.Bytes
        );

    /// <summary>A stencil: the current colour goes through where a bit is 1, nothing is painted where it is 0.</summary>
    /// <param name="width">Dots across.</param>
    /// <param name="height">Dots down.</param>
    /// <param name="rows">Bits, the highest first, every row filled up to a whole byte.</param>
    public int AddStencil(int width, int height, byte[] rows) =>
        AddStream(
            $"/Type /XObject /Subtype /Image /Width {width} /Height {height} /ImageMask true /BitsPerComponent 1 /Decode [1 0]",
            rows
        );

    /// <summary>A grey picture; a sample of 0 shows as <paramref name="greyOfZero"/>, 255 as no ink.</summary>
    public int AddGrey(int width, int height, byte[] samples, double greyOfZero) =>
        AddStream(
            $"/Type /XObject /Subtype /Image /Width {width} /Height {height} /ColorSpace /DeviceGray /BitsPerComponent 8 "
                + $"/Decode [{InkNumber.Of(greyOfZero, 3)} 1]",
            samples
        );

    /// <summary>A page of exactly this paper: what prints, what is shown and what is kept after trimming are all the paper.</summary>
    public void AddPage(double widthMm, double heightMm, InkLines content, IReadOnlyDictionary<string, int> uses)
    {
        var box = Numbers(new(0, 0, widthMm * PointsPerMm, heightMm * PointsPerMm));
        var stream = AddStream("", content.Bytes);
        _pages.Add(
            Add(
                Encoding.ASCII.GetBytes(
                    $"<< /Type /Page /Parent {Pages} 0 R /MediaBox [{box}] /CropBox [{box}] /BleedBox [{box}] /TrimBox [{box}] "
                        + $"/Rotate 0 /Resources {Resources(uses)} /Contents {stream} 0 R >>"
                )
            )
        );
    }

    /// <summary>The file.</summary>
    public byte[] Save()
    {
        Set(
            Catalog,
            $"<< /Type /Catalog /Pages {Pages} 0 R /ViewerPreferences "
                + "<< /PrintScaling /None /Duplex /Simplex /PickTrayByPDFSize true /DisplayDocTitle true >> >>"
        );
        Set(
            Pages,
            $"<< /Type /Pages /Count {_pages.Count} /Kids [{string.Join(' ', _pages.Select(p => $"{p} 0 R"))}] >>"
        );
        Set(Info, $"<< /Title {TextString(title)} /Producer (Coldpeel) >>");

        using var file = new MemoryStream();
        // The comment of four high bytes tells transfer programs that the file is binary (7.5.2).
        file.Write([.. "%PDF-1.7\n%"u8, 0xE2, 0xE3, 0xCF, 0xD3, .. "\n"u8]);
        var starts = new long[_objects.Count];
        for (var i = 0; i < _objects.Count; i++)
        {
            starts[i] = file.Position;
            file.Write(Encoding.ASCII.GetBytes($"{i + 1} 0 obj\n"));
            file.Write(_objects[i]);
            file.Write("\nendobj\n"u8);
        }

        var digest = Convert.ToHexString(SHA256.HashData(file.ToArray()).AsSpan(0, 16));
        var table = file.Position;
        file.Write(Encoding.ASCII.GetBytes($"xref\n0 {_objects.Count + 1}\n0000000000 65535 f \n"));
        foreach (var start in starts)
        {
            file.Write(
                Encoding.ASCII.GetBytes(start.ToString("0000000000", CultureInfo.InvariantCulture) + " 00000 n \n")
            );
        }

        file.Write(
            Encoding.ASCII.GetBytes(
                $"trailer\n<< /Size {_objects.Count + 1} /Root {Catalog} 0 R /Info {Info} 0 R /ID [<{digest}> <{digest}>] >>\n"
                    + $"startxref\n{table}\n%%EOF\n"
            )
        );
        return file.ToArray();
    }

    private int Add(byte[] body)
    {
        _objects.Add(body);
        return _objects.Count;
    }

    private int AddStream(string entries, byte[] content)
    {
        using var packed = new MemoryStream();
        using (var zip = new ZLibStream(packed, CompressionLevel.Optimal, leaveOpen: true))
        {
            zip.Write(content);
        }

        var head = Encoding.ASCII.GetBytes($"<< {entries} /Filter /FlateDecode /Length {packed.Length} >>\nstream\n");
        return Add([.. head, .. packed.ToArray(), .. "\nendstream"u8]);
    }

    private void Set(int number, string body) => _objects[number - 1] = Encoding.ASCII.GetBytes(body);

    private static string Resources(IReadOnlyDictionary<string, int> uses) =>
        uses.Count == 0
            ? "<< >>"
            : $"<< /XObject << {string.Join(' ', uses.OrderBy(u => u.Key, StringComparer.Ordinal).Select(u => $"/{u.Key} {u.Value} 0 R"))} >> >>";

    private static string Numbers(BoxMm box) =>
        string.Join(' ', ((double[])[box.Left, box.Top, box.Right, box.Bottom]).Select(v => InkNumber.Of(v, 6)));

    // UTF-16 with its mark is the one form that carries every name (7.9.2.2); as hex nothing needs escaping.
    private static string TextString(string text) =>
        $"<FEFF{Convert.ToHexString(Encoding.BigEndianUnicode.GetBytes(text))}>";
}
