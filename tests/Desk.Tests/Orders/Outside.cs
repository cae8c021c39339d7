using CliWrap;
using CliWrap.Buffered;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>Programs from outside that look at what was made.</summary>
internal static class Outside
{
    /// <summary>What a program says on standard output; it must end with 0.</summary>
    public static async Task<string> Says(string tool, params string[] arguments)
    {
        var run = await Cli.Wrap(Place.Tool(tool))
            .WithArguments(arguments)
            .WithValidation(CommandResultValidation.None)
            .ExecuteBufferedAsync(System.Text.Encoding.UTF8, TestContext.Current.CancellationToken);
        Assert.True(run.ExitCode == 0, $"{tool}: {run.StandardOutput}{run.StandardError}");
        return run.StandardOutput + run.StandardError;
    }

    /// <summary>A page as poppler's pdftoppm draws it, 600 dots an inch.</summary>
    public static async Task<InkDots> Page(string pdf, int page, int inkBelow = 128)
    {
        var root = Path.Combine(Place.NewFolder(), "page");
        await Says("pdftoppm", "-r", "600", "-gray", "-f", $"{page}", "-l", $"{page}", "-singlefile", pdf, root);
        return Taken(root + ".pgm", inkBelow);
    }

    /// <summary>A drawing as librsvg draws it, 600 dots an inch.</summary>
    public static async Task<InkDots> Svg(string svg)
    {
        var root = Path.Combine(Place.NewFolder(), "drawing");
        await File.WriteAllTextAsync(root + ".svg", svg, TestContext.Current.CancellationToken);
        await Says(
            "rsvg-convert",
            "-d",
            "600",
            "-p",
            "600",
            "-b",
            "white",
            "--unlimited",
            "-o",
            root + ".png",
            root + ".svg"
        );
        await Says("convert", root + ".png", "-colorspace", "Gray", "-depth", "8", root + ".pgm");
        return Taken(root + ".pgm", 128);
    }

    /// <summary>A picture at true size, dark or not, as ImageMagick makes it, 600 dots an inch.</summary>
    public static async Task<InkDots> Picture(string file, double widthMm)
    {
        var root = Path.Combine(Place.NewFolder(), "picture");
        var dots = (int)Math.Round(widthMm * InkDots.PerMm);
        string[] grey = ["-background", "white", "-alpha", "remove", "-colorspace", "Gray"];
        await Says("convert", [file, .. grey, "-resize", $"{dots}x", "-depth", "8", root + ".pgm"]);
        return Taken(root + ".pgm", 128);
    }

    private static InkDots Taken(string graymap, int inkBelow)
    {
        var dots = InkDots.OfGraymap(File.ReadAllBytes(graymap), inkBelow);
        File.Delete(graymap);
        return dots;
    }
}
