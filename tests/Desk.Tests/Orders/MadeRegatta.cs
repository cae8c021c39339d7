using System.Globalization;
using System.Xml.Linq;
using Coldpeel.Desk.Orders;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>The demo order, made once for all tests that look at it, and put in a folder as the program does.</summary>
public sealed class MadeRegatta
{
    private readonly Dictionary<int, InkDots> _film = [];

    public MadeRegatta()
    {
        Made = Make();
        Folder = Place.NewFolder();
        Assert.Null(OutFolder.Put(Folder, Made.Files));
        Layout = new(File.ReadAllBytes(PathOf("sheets.json")));
    }

    /// <summary>From the example workshop file, by hand: °C, seconds closed, seconds to cool, seconds of the finish press (at the same °C).</summary>
    internal static readonly Dictionary<string, (int C, int S, int Cool, int Finish)> Recipes = new()
    {
        ["gilet"] = (130, 15, 120, 8),
        ["shirt"] = (150, 30, 120, 10),
        ["tote"] = (150, 30, 120, 15),
        ["pennant"] = (150, 15, 120, 8),
        ["fob"] = (130, 15, 120, 5),
        ["plaque"] = (150, 30, 120, 15),
    };

    public MadeJob Made { get; }

    public string Folder { get; }

    internal LaidSheets Layout { get; }

    public static string Demo(string file) => Path.Combine(Place.Root, "demo", "regatta", file);

    public static MadeJob Make()
    {
        var made = new MakeJob(TimeProvider.System).Run(
            Demo("job.json"),
            new(null, 1, []),
            null,
            CancellationToken.None
        );
        Assert.True(made.Ok, made.Fault?.ToString());
        return made.Value;
    }

    public string PathOf(string name) => Path.Combine(Folder, name);

    /// <summary>A page of sheets.pdf as it is printed, mirrored; drawn once.</summary>
    internal async Task<InkDots> Film(int page)
    {
        if (!_film.TryGetValue(page, out var dots))
        {
            _film[page] = dots = await Outside.Page(PathOf("sheets.pdf"), page);
        }

        return dots;
    }

    /// <summary>The frame of a demo drawing at the size the job asks for, in mm: 78 mm for a crest of 90 × 104 units, and the mark's own 30 mm.</summary>
    internal static (double Width, double Height, string Box) Frame(string design) =>
        design == "crest" ? (78, 78.0 * 104 / 90, "0 0 90 104") : (30, 30, "0 0 60 60");

    /// <summary>
    /// A drawing of the demo at true size in a window of dots: left, top in mm and size in dots. Its content is the customer's; only the frame is written here.
    /// </summary>
    internal static string Window(
        string design,
        double left,
        double top,
        int dotsWide,
        int dotsHigh,
        double x,
        double y,
        double turn
    )
    {
        var (width, height, box) = Frame(design);
        var content = string.Concat(XDocument.Load(Demo(design + ".svg")).Root!.Elements());
        return string.Create(
            CultureInfo.InvariantCulture,
            $"""
            <svg xmlns="http://www.w3.org/2000/svg" width="{dotsWide}px" height="{dotsHigh}px" preserveAspectRatio="none"
                 viewBox="{left} {top} {dotsWide / InkDots.PerMm} {dotsHigh / InkDots.PerMm}">
              <g transform="translate({x} {y}) rotate({turn})"><svg width="{width}" height="{height}" viewBox="{box}">{content}</svg></g>
            </svg>
            """
        );
    }
}

[CollectionDefinition(nameof(Regatta))]
public sealed class Regatta : ICollectionFixture<MadeRegatta>;
