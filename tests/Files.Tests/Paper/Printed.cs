using CliWrap;
using CliWrap.Buffered;
using SkiaSharp;
using UglyToad.PdfPig;
using UglyToad.PdfPig.Core;

namespace Coldpeel.Files.Tests.Paper;

/// <summary>A paper as programs from outside see it: poppler for text and pixels, PdfPig for where each word stands.</summary>
internal sealed class Printed : IDisposable
{
    private readonly PdfDocument _pdf;
    private readonly string _file;

    public Printed(byte[] pdf, string name)
    {
        // Set COLDPEEL_LOOK to a folder to keep the papers and look at them.
        var folder = Environment.GetEnvironmentVariable("COLDPEEL_LOOK") ?? Place.NewFolder();
        _file = Path.Combine(folder, name + ".pdf");
        File.WriteAllBytes(_file, pdf);
        _pdf = PdfDocument.Open(pdf);
    }

    public int Pages => _pdf.NumberOfPages;

    public (double WidthMm, double HeightMm) Size(int page) =>
        (_pdf.GetPage(page).Width * 25.4 / 72, _pdf.GetPage(page).Height * 25.4 / 72);

    /// <summary>All text, by poppler's pdftotext; line ends are blanks.</summary>
    public async Task<string> Text()
    {
        var run = await Cli.Wrap(Place.Tool("pdftotext"))
            .WithArguments(["-layout", _file, "-"])
            .ExecuteBufferedAsync(System.Text.Encoding.UTF8, TestContext.Current.CancellationToken);
        return string.Join(
            ' ',
            run.StandardOutput.Split((char[])[' ', '\n', '\f', '\r'], StringSplitOptions.RemoveEmptyEntries)
        );
    }

    /// <summary>One page in grey, by poppler's pdftoppm.</summary>
    public async Task<SKBitmap> Picture(int page, int dpi)
    {
        var to = Path.Combine(Place.NewFolder(), "page");
        string[] arguments =
        [
            "-png",
            "-gray",
            "-r",
            $"{dpi}",
            "-f",
            $"{page}",
            "-l",
            $"{page}",
            "-singlefile",
            _file,
            to,
        ];
        await Cli.Wrap(Place.Tool("pdftoppm"))
            .WithArguments(arguments)
            .ExecuteAsync(TestContext.Current.CancellationToken);
        return SKBitmap.Decode(to + ".png");
    }

    /// <summary>Words that reach over the margin, as "page: word".</summary>
    public IEnumerable<string> Outside(double marginMm)
    {
        var m = marginMm * 72 / 25.4;
        return Words()
            .Where(w =>
                w.Box.Left < m - 0.5
                || w.Box.Bottom < m - 0.5
                || w.Box.Right > w.Width - m + 0.5
                || w.Box.Top > w.Height - m + 0.5
            )
            .Select(w => $"{w.Page}: {w.Text}");
    }

    /// <summary>Pairs of words whose boxes share more than a hair (a third of a point each way).</summary>
    public IEnumerable<string> Overlapping()
    {
        foreach (var page in Words().GroupBy(w => w.Page))
        {
            var words = page.ToList();
            for (var i = 0; i < words.Count; i++)
            {
                for (var j = i + 1; j < words.Count; j++)
                {
                    var (a, b) = (words[i].Box, words[j].Box);
                    var across = Math.Min(a.Right, b.Right) - Math.Max(a.Left, b.Left);
                    var down = Math.Min(a.Top, b.Top) - Math.Max(a.Bottom, b.Bottom);
                    if (across > 0.35 && down > 0.35)
                    {
                        yield return $"{page.Key}: {words[i].Text} / {words[j].Text}";
                    }
                }
            }
        }
    }

    /// <summary>Whether every font's program is inside the file.</summary>
    public async Task<string> Fonts()
    {
        var run = await Cli.Wrap(Place.Tool("pdffonts"))
            .WithArguments([_file])
            .ExecuteBufferedAsync(TestContext.Current.CancellationToken);
        return run.StandardOutput;
    }

    public void Dispose() => _pdf.Dispose();

    private IEnumerable<(int Page, string Text, PdfRectangle Box, double Width, double Height)> Words() =>
        _pdf.GetPages().SelectMany(p => p.GetWords().Select(w => (p.Number, w.Text, w.BoundingBox, p.Width, p.Height)));
}
