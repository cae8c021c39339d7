using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;
using CliWrap;
using CliWrap.Buffered;
using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Geometry;
using Coldpeel.Craft.Measures;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Sheets;

namespace Coldpeel.Files.Tests.Sheets;

/// <summary>Sheets made by hand for these tests, and the outside programs that look at what we write.</summary>
internal static partial class Film
{
    public const double DotsPerMm = 600 / 25.4;

    /// <summary>The data of the one path in a drawing of tests/data/film.</summary>
    public static string PathData(string svgFile) => PathAttribute().Match(File.ReadAllText(svgFile)).Groups[1].Value;

    /// <summary>Absolute M, L, C and Z as ink, independent of the program's own reader.</summary>
    public static InkPath Ink(string data)
    {
        var steps = ImmutableArray.CreateBuilder<PathStep>();
        var words = new Queue<string>(data.Split(' ', StringSplitOptions.RemoveEmptyEntries));
        PointMm Point() => new(Number(words.Dequeue()), Number(words.Dequeue()));
        while (words.TryDequeue(out var letter))
        {
            steps.Add(
                letter switch
                {
                    "M" => new(PathMove.Start, default, default, Point()),
                    "L" => new(PathMove.Line, default, default, Point()),
                    "C" => new(PathMove.Curve, Point(), Point(), Point()),
                    "Z" => new(PathMove.Close, default, default, default),
                    _ => throw new InvalidDataException(letter),
                }
            );
        }

        return new(steps.ToImmutable());
    }

    /// <summary>A design of that ink whose outline is its box.</summary>
    public static Design Vector(string id, InkPath ink)
    {
        var box = BoxMm.Around(ink.Steps.Where(s => s.Move != PathMove.Close).Select(s => s.End));
        return Make(id, new(1, 1, [255], DotsPerMm), ink, Ring(box), box);
    }

    /// <summary>A design of those dots whose outline is the box given.</summary>
    public static Design Dots(string id, WhitePlane plane, BoxMm outline) =>
        Make(id, plane, null, Ring(outline), outline);

    public static Design Make(string id, WhitePlane plane, InkPath? ink, Region outline, BoxMm box) =>
        new(id, box.Right, box.Bottom, plane, ink, outline, box.Width * box.Height, "what is dark", []);

    public static Region Ring(BoxMm b) =>
        Region.Of(new(b.Left, b.Top), new(b.Right, b.Top), new(b.Right, b.Bottom), new(b.Left, b.Bottom));

    public static LaidPiece Lay(Design design, string label, double x, double y, double turn = 0) =>
        new(design, design.Id, 0, label, $"Jacket {label}", Turn.Clockwise(turn), new(x, y));

    public static PrintSheet Sheet(double width, double height, double margin, params LaidPiece[] pieces) =>
        new(
            1,
            Length.FromMillimetres(width),
            Length.FromMillimetres(height),
            Length.FromMillimetres(margin),
            [.. pieces]
        );

    /// <summary>Writes bytes to a new file.</summary>
    public static string Save(byte[] bytes, string name)
    {
        var file = Path.Combine(Place.NewFolder(), name);
        File.WriteAllBytes(file, bytes);
        return file;
    }

    /// <summary>Runs an outside program and returns what it says.</summary>
    public static async Task<(int Code, string Text)> Run(string tool, params string[] arguments)
    {
        var result = await Cli.Wrap(Place.Tool(tool))
            .WithArguments(arguments)
            .WithValidation(CommandResultValidation.None)
            .ExecuteBufferedAsync(TestContext.Current.CancellationToken);
        return (result.ExitCode, result.StandardOutput + result.StandardError);
    }

    /// <summary>A page as poppler's pdftoppm draws it, 600 dots an inch.</summary>
    public static async Task<InkRaster> Draw(string pdf, int page = 1)
    {
        var root = Path.Combine(Place.NewFolder(), "page");
        var (code, text) = await Run(
            "pdftoppm",
            "-r",
            "600",
            "-gray",
            "-f",
            $"{page}",
            "-l",
            $"{page}",
            "-singlefile",
            pdf,
            root
        );
        Assert.True(code == 0, text);
        return InkRaster.OfGraymap(File.ReadAllBytes(root + ".pgm"));
    }

    /// <summary>A drawing as librsvg draws it, 600 dots an inch: a renderer that shares nothing with ours.</summary>
    public static async Task<InkRaster> DrawSvg(string svg)
    {
        var folder = Place.NewFolder();
        var (from, to) = (Path.Combine(folder, "in.svg"), Path.Combine(folder, "out.png"));
        File.WriteAllText(from, svg);
        var (code, text) = await Run("rsvg-convert", "-d", "600", "-p", "600", "-b", "white", "-o", to, from);
        Assert.True(code == 0, text);
        return InkRaster.OfPng(File.ReadAllBytes(to));
    }

    public static string Svg(double width, double height, params string[] drawings) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"""<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" viewBox="0 0 {width} {height}">{string.Concat(drawings)}</svg>"""
        );

    public static string SvgPath(string data, double x, double y, double turn) =>
        string.Create(
            CultureInfo.InvariantCulture,
            $"""<path transform="translate({x} {y}) rotate({turn})" fill-rule="evenodd" d="{data}"/>"""
        );

    private static double Number(string word) => double.Parse(word, CultureInfo.InvariantCulture);

    [GeneratedRegex(" d=\"([^\"]*)\"")]
    private static partial Regex PathAttribute();
}
