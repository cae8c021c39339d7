using System.Globalization;
using System.Xml.Linq;
using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;
using SkiaSharp;
using Svg;
using Svg.Skia;

namespace Coldpeel.Files.Artwork;

/// <summary>An SVG: outlines that stay exact at any size.</summary>
internal sealed class SvgArtwork : SourceArtwork
{
    /// <summary>A last guard against a drawing that never ends: <see cref="SvgReadWork"/> bounds every one that is known long before, by counting and not by the clock.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(3);

    /// <summary>Pixels that every drawing must be able to have within <see cref="SvgDrawWork.MostAtAll"/>: 500 a side.</summary>
    private const double CoarsePixels = 250_000;

    /// <summary>Dots in a millimetre from which a drawing is made to be printed, not only to be looked at.</summary>
    private const double FineDotsPerMm = 12;

    private readonly SKSvg _svg;
    private readonly SvgSize _size;
    private readonly (int W, int H) _page;
    private readonly List<Sentence> _notes;
    private readonly SvgDrawWork _work;

    private SvgArtwork(SKSvg svg, SvgSize size, (int W, int H) page, SvgDrawWork work, IEnumerable<Sentence> notes)
    {
        (_svg, _size, _page, _work) = (svg, size, page, work);
        _notes = [.. notes];
    }

    public override string Kind => "SVG";

    public override double OwnWidthMm => _size.WidthPx * SvgSize.MmPerPx;

    public override double OwnHeightMm => _size.HeightPx * SvgSize.MmPerPx;

    public override bool HasOwnSize => _size.Told;

    public override Sentence? SizeNote =>
        HasOwnSize
            ? null
            : "The SVG does not say how large it is meant to be: one unit of its viewBox is taken as 1/96 inch. Give a width or a height.";

    public override IReadOnlyList<Sentence> Notes => _notes;

    public override double? SourceDpiAt(double widthMm) =>
        SvgImages.FewestPerUnit(_svg.Model!) is { } perUnit ? perUnit * _page.W / widthMm * 25.4 : null;

    public override Picture Draw(double widthMm, double heightMm, double dotsPerMm)
    {
        var most = Math.Sqrt(MostPixels / (widthMm * heightMm));
        // Heavy effects are drawn coarser than asked: the picture tells how fine it is.
        var mmPerUnit = Math.Sqrt(widthMm * heightMm / ((double)_page.W * _page.H));
        var perMm =
            _work.Finest(
                Math.Min(dotsPerMm, most) * mmPerUnit,
                Coarse(_page),
                dotsPerMm < FineDotsPerMm ? SvgDrawWork.MostCoarse : SvgDrawWork.Most
            ) / mmPerUnit;
        var info = new SKImageInfo(
            Math.Max(1, (int)Math.Ceiling((widthMm * perMm) - 1e-6)),
            Math.Max(1, (int)Math.Ceiling((heightMm * perMm) - 1e-6)),
            SKColorType.Rgba8888,
            SKAlphaType.Premul,
            SKColorSpace.CreateSrgb()
        );
        var rgba = new byte[info.BytesSize];
        unsafe
        {
            fixed (byte* to = rgba)
            {
                using var surface = SKSurface.Create(info, (nint)to, info.RowBytes);
                surface.Canvas.Scale((float)(widthMm * perMm / _page.W), (float)(heightMm * perMm / _page.H));
                surface.Canvas.ClipRect(SKRect.Create(_page.W, _page.H), antialias: true);
                lock (_svg)
                {
                    surface.Canvas.DrawPicture(_svg.Picture);
                }

                surface.Flush();
                // In place and strip by strip: no second picture of the same size.
                var straight = info.WithAlphaType(SKAlphaType.Unpremul);
                var row = new byte[info.RowBytes];
                fixed (byte* one = row)
                {
                    for (var y = 0; y < info.Height; y++)
                    {
                        surface.ReadPixels(straight.WithSize(info.Width, 1), (nint)one, info.RowBytes, 0, y);
                        row.CopyTo(rgba, (long)y * info.RowBytes);
                    }
                }
            }
        }

        return new(info.Width, info.Height, rgba, perMm);
    }

    /// <summary>Pixels in a unit of the page when it has <see cref="CoarsePixels"/>.</summary>
    private static double Coarse((int W, int H) page) => Math.Sqrt(CoarsePixels / ((double)page.W * page.H));

    public override VectorInk Ink(Func<Rgb, byte, double> strength, double widthMm, double heightMm)
    {
        // The drawing library joins some outlines wrongly (a few icons in a thousand) and does not tell. So the ink is held against the
        // drawing itself, and joined anew on another grid where the two differ.
        InkPlane? drawn = null;
        var work = new InkWork();
        foreach (var grid in SvgInk.Grids)
        {
            VectorInk ink;
            lock (_svg)
            {
                ink = new SvgInk(_svg.SkiaModel, strength, work).Of(_svg.Model!, _page, widthMm, heightMm, grid);
            }

            if (ink.Path is null && ink.WhyNot?.English != SvgInk.Tangled)
            {
                return ink;
            }

            drawn ??= InkPlane.Of(Draw(widthMm, heightMm, InkPlane.DotsPerMm(widthMm, heightMm)), strength);
            if (ink.Path is { } path && drawn.Shows(path, widthMm, heightMm))
            {
                return ink;
            }
        }

        return new(null, SvgInk.Tangled);
    }

    public override IReadOnlyList<SetText> Texts(double widthMm, double heightMm)
    {
        lock (_svg)
        {
            return SvgTexts.Find(_svg.SkiaModel, _svg.Model!, heightMm / _page.H);
        }
    }

    public static Outcome<SourceArtwork> Read(byte[] bytes, string shownName)
    {
        var fault = new Fault(
            shownName,
            "The SVG takes too long to read: it is too intricate.",
            "Ask for a simpler drawing, or for a PNG at 600 pixels an inch."
        );
        // A thread of its own, with room for deep nesting; what outlives our patience ends by the limits of the check.
        Outcome<SourceArtwork> outcome = fault;
        Exception? ours = null;
        var reading = new Thread(
            () =>
            {
                try
                {
                    outcome = ReadNow(bytes, shownName);
                }
                catch (Exception e)
                {
                    ours = e;
                }
            },
            64 * 1024 * 1024
        )
        {
            IsBackground = true,
        };
        reading.Start();
        if (!reading.Join(Patience))
        {
            return fault;
        }

        return ours is null
            ? outcome
            : new Fault(
                shownName,
                $"The SVG cannot be drawn ({SvgDocumentCheck.Short(ours.Message)}).",
                "Save it as plain SVG with everything turned into outlines."
            );
    }

    private static Outcome<SourceArtwork> ReadNow(byte[] bytes, string shownName)
    {
        var seen = SvgDocumentCheck.Read(bytes, shownName);
        if (!seen.Ok)
        {
            return seen.Fault;
        }

        var size = SvgSize.Of(seen.Value.Root, shownName);
        if (!size.Ok)
        {
            return size.Fault;
        }

        var (page, root) = Page(seen.Value.Root, size.Value);
        SvgDocument.ResolveExternalElements = ExternalType.None;
        SvgDocument.ResolveExternalImages = ExternalType.None;
        SvgDocument.ResolveExternalXmlEntites = ExternalType.None;
        var typefaces = new SvgTypefaces(root);
        var svg = new SKSvg();
        svg.Settings.EnableJavaScript = false;
        svg.Settings.EnableExternalJavaScript = false;
        svg.Settings.TypefaceProviders = [typefaces];
        if (svg.FromSvg(root.ToString(SaveOptions.DisableFormatting)) is null || svg.Model is null)
        {
            return new Fault(
                shownName,
                "There is nothing to draw in the SVG.",
                "Ask for it again, with its layers visible."
            );
        }

        var work = SvgDrawWork.Of(svg.Model, page);
        if (!work.Fits(Coarse(page), SvgDrawWork.MostAtAll))
        {
            return new Fault(
                shownName,
                "The SVG is too much work to draw: filters, masks, patterns, dashes or layers laid over one another without end.",
                "Ask for a plainer drawing without effects, or for a PNG at 600 pixels an inch."
            );
        }

        return new SvgArtwork(svg, size.Value, page, work, [.. seen.Value.Notes, .. typefaces.Notes]);
    }

    /// <summary>The same drawing on a page of whole units, because the drawing library rounds its page to whole units.</summary>
    /// <remarks>The page is stretched to whole units on both sides by at most half a unit, and <see cref="Draw"/> and <see cref="Ink"/> undo exactly that.</remarks>
    private static ((int W, int H) Page, XElement Root) Page(XElement root, SvgSize size)
    {
        var view = size.View ?? (0, 0, size.WidthPx, size.HeightPx);
        var same = Math.Abs((view.W * size.HeightPx / (view.H * size.WidthPx)) - 1) < 1e-6;
        var fills = same || root.Attribute("preserveAspectRatio")?.Value.Trim() == "none";
        var page = fills ? Whole(view.W, view.H) : InProportion(size.WidthPx / size.HeightPx);
        var outer = root;
        if (!fills)
        {
            // The viewBox leaves room on the page: the page becomes a drawing around the drawing. The library rounds the
            // size of inner drawings as well, so that whole units in the page's own proportion are given.
            root.SetAttributeValue("x", null);
            root.SetAttributeValue("y", null);
            root.SetAttributeValue("width", Text(page.W));
            root.SetAttributeValue("height", Text(page.H));
            outer = new XElement(SvgReferences.Svg + "svg", root);
            view = (0, 0, page.W, page.H);
        }

        outer.SetAttributeValue("viewBox", string.Join(' ', Text(view.X), Text(view.Y), Text(view.W), Text(view.H)));
        outer.SetAttributeValue("width", Text(page.W));
        outer.SetAttributeValue("height", Text(page.H));
        outer.SetAttributeValue("preserveAspectRatio", "none");
        return (page, outer);
    }

    /// <summary>The nearest whole page, neither too coarse nor too fine for single precision.</summary>
    private static (int W, int H) Whole(double width, double height)
    {
        var grow = 1.0;
        while (Math.Max(width, height) * grow < 256)
        {
            grow *= 2;
        }

        while (Math.Max(width, height) * grow > 16_384)
        {
            grow /= 2;
        }

        return (Math.Max(1, (int)Math.Round(width * grow)), Math.Max(1, (int)Math.Round(height * grow)));
    }

    /// <summary>The whole page whose proportion is nearest to one given.</summary>
    private static (int W, int H) InProportion(double ratio)
    {
        var best = (W: 1, H: 1);
        var off = double.PositiveInfinity;
        for (var longer = 1000; longer <= 6000; longer++)
        {
            var shorter = Math.Max(1, (int)Math.Round(longer * Math.Min(ratio, 1 / ratio)));
            var page = ratio >= 1 ? (W: longer, H: shorter) : (W: shorter, H: longer);
            var error = Math.Abs(((double)page.W / page.H / ratio) - 1);
            if (error < off - 1e-12)
            {
                (best, off) = (page, error);
            }
        }

        return best;
    }

    private static string Text(double value) => value.ToString("R", CultureInfo.InvariantCulture);
}
