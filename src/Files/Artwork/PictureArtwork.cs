using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Findings;
using SkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>A PNG or JPEG: its pixels in sRGB with straight alpha, upright.</summary>
internal sealed class PictureArtwork : SourceArtwork
{
    /// <summary>Pixels in a millimetre where a file tells none: the 96 an inch of the web.</summary>
    private const double WebPerMm = 96 / 25.4;

    private readonly ImageHeader _header;
    private readonly int _width;
    private readonly int _height;
    private readonly byte[] _rgba;
    private readonly List<string> _notes = [];

    private PictureArtwork(ImageHeader header, int width, int height, byte[] rgba)
    {
        (_header, _width, _height, _rgba) = (header, width, height, rgba);
        var (across, down) = (header.AcrossPerMm ?? WebPerMm, header.DownPerMm ?? WebPerMm);
        (across, down) = header.Orientation >= 5 ? (down, across) : (across, down);
        (OwnWidthMm, OwnHeightMm) = (width / across, height / down);
        if (header.Orientation != 1)
        {
            _notes.Add("The camera held the picture turned or mirrored; it is set upright as the file asks.");
        }
    }

    public override string Kind => _header.Kind;

    public override double OwnWidthMm { get; }

    public override double OwnHeightMm { get; }

    public override bool HasOwnSize => _header.AcrossPerMm is not null;

    public override string? SizeNote =>
        HasOwnSize
            ? null
            : "The file does not say how large it is meant to be: 96 pixels an inch are taken. Give a width or a height.";

    public override IReadOnlyList<string> Notes => _notes;

    public override double? SourceDpiAt(double widthMm) => _width / widthMm * 25.4;

    public override VectorInk Ink(Func<Rgb, byte, double> strength, double widthMm, double heightMm) =>
        new(null, $"It is a picture ({Kind}), made of pixels and not of outlines.");

    public override Picture Draw(double widthMm, double heightMm, double dotsPerMm)
    {
        var perMm = _width / widthMm;
        var height = Math.Max(1, (int)Math.Round(heightMm * perMm));
        if (Math.Abs((heightMm * perMm) - _height) <= 1)
        {
            return new(_width, _height, _rgba, perMm);
        }

        // Pixels that are not square (or a stretched frame): made square by drawing them anew.
        using var source = new SKBitmap(Format(_width, _height));
        _rgba.CopyTo(source.GetPixelSpan());
        using var square = source.Resize(Format(_width, height), new SKSamplingOptions(SKCubicResampler.Mitchell));
        return new(_width, height, square.GetPixelSpan().ToArray(), perMm);
    }

    public static Outcome<SourceArtwork> Read(byte[] bytes, string shownName)
    {
        var header = ImageHeader.Read(bytes, shownName);
        if (!header.Ok)
        {
            return header.Fault;
        }

        using var data = SKData.CreateCopy(bytes);
        using var codec = SKCodec.Create(data);
        if (codec is null)
        {
            return Broken(shownName, "its pixels cannot be unpacked");
        }

        // Decoding into sRGB converts from the profile that the file carries. Without one the numbers are sRGB as they stand:
        // a bare gamma of 1/2.2 in a PNG means sRGB in practice, and converting it would shift every colour a little.
        var format = Format(codec.Info.Width, codec.Info.Height);
        format = HasProfile(bytes) ? format : format.WithColorSpace(null);
        using var bitmap = new SKBitmap();
        if (!bitmap.TryAllocPixels(format))
        {
            return new Fault(shownName, "The picture is too large for this computer's memory.", "Save it smaller.");
        }

        var result = codec.GetPixels(bitmap.Info, bitmap.GetPixels());
        if (result != SKCodecResult.Success)
        {
            return Broken(
                shownName,
                result == SKCodecResult.IncompleteInput ? "it ends too early" : "its pixels cannot be unpacked"
            );
        }

        var turned = Upright(
            bitmap.GetPixelSpan(),
            bitmap.Width,
            bitmap.Height,
            header.Value.Orientation,
            out var across,
            out var down
        );
        return new PictureArtwork(header.Value, across, down, turned);
    }

    private static Fault Broken(string shownName, string why) =>
        new(shownName, $"The picture is broken: {why}.", "Ask for it again, or open it and save it anew as PNG.");

    private static bool HasProfile(ReadOnlySpan<byte> bytes)
    {
        var pixels = PngHeader.Fits(bytes) ? bytes.IndexOf("IDAT"u8) : bytes.Length;
        return bytes[..Math.Max(pixels, 0)].IndexOf(PngHeader.Fits(bytes) ? "iCCP"u8 : "ICC_PROFILE\0"u8) >= 0;
    }

    private static SKImageInfo Format(int width, int height) =>
        new(width, height, SKColorType.Rgba8888, SKAlphaType.Unpremul, SKColorSpace.CreateSrgb());

    /// <summary>The pixels turned upright by the eight orientations of EXIF.</summary>
    private static byte[] Upright(
        ReadOnlySpan<byte> pixels,
        int width,
        int height,
        int orientation,
        out int across,
        out int down
    )
    {
        (across, down) = orientation >= 5 ? (height, width) : (width, height);
        if (orientation == 1)
        {
            return pixels.ToArray();
        }

        var from = System.Runtime.InteropServices.MemoryMarshal.Cast<byte, uint>(pixels);
        var rgba = new byte[pixels.Length];
        var to = System.Runtime.InteropServices.MemoryMarshal.Cast<byte, uint>(rgba.AsSpan());
        for (var y = 0; y < down; y++)
        {
            for (var x = 0; x < across; x++)
            {
                var (sx, sy) = orientation switch
                {
                    2 => (width - 1 - x, y),
                    3 => (width - 1 - x, height - 1 - y),
                    4 => (x, height - 1 - y),
                    5 => (y, x),
                    6 => (y, height - 1 - x),
                    7 => (width - 1 - y, height - 1 - x),
                    _ => (width - 1 - y, x),
                };
                to[(y * across) + x] = from[(sy * width) + sx];
            }
        }

        return rgba;
    }
}
