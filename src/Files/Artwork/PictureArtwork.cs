using Coldpeel.Craft.Artwork;
using Coldpeel.Workshop.Findings;
using SkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>A PNG, JPEG, WebP or page of a TIFF: its pixels in sRGB with straight alpha, upright.</summary>
internal sealed class PictureArtwork : SourceArtwork
{
    /// <summary>Pixels in a millimetre where a file tells none: the 96 an inch of the web.</summary>
    private const double WebPerMm = 96 / 25.4;

    private readonly ImageHeader _header;
    private readonly int _width;
    private readonly int _height;
    private readonly byte[] _rgba;
    private readonly List<Sentence> _notes = [];

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

    public override Sentence? SizeNote =>
        HasOwnSize
            ? null
            : "The file does not say how large it is meant to be: 96 pixels an inch are taken. Give a width or a height.";

    public override IReadOnlyList<Sentence> Notes => _notes;

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
        // Straight into the array that stays: a large picture is not held twice.
        var rgba = GC.AllocateUninitializedArray<byte>(format.BytesSize);
        SKCodecResult result;
        unsafe
        {
            fixed (byte* to = rgba)
            {
                result = codec.GetPixels(format, (nint)to);
            }
        }

        if (result != SKCodecResult.Success)
        {
            return Broken(
                shownName,
                result == SKCodecResult.IncompleteInput ? "it ends too early" : "its pixels cannot be unpacked"
            );
        }

        var moves = codec.FrameCount > 1 ? "The picture moves; its first frame is taken." : null;
        return Of(header.Value with { Width = format.Width, Height = format.Height }, rgba, moves);
    }

    /// <summary>The picture of pixels as stored, turned upright.</summary>
    public static PictureArtwork Of(ImageHeader header, byte[] rgba, Sentence? note = null)
    {
        var turned = Upright(rgba, header.Width, header.Height, header.Orientation, out var across, out var down);
        var artwork = new PictureArtwork(header, across, down, turned);
        if (note is not null)
        {
            artwork._notes.Add(note);
        }

        return artwork;
    }

    internal static Fault Broken(string shownName, string why) =>
        new(shownName, $"The picture is broken: {why}.", "Ask for it again, or open it and save it anew as PNG.");

    private static bool HasProfile(ReadOnlySpan<byte> bytes) =>
        PngHeader.Fits(bytes) ? PngHeader.HasOwnColours(bytes)
        : WebpHeader.Fits(bytes) ? bytes.IndexOf("ICCP"u8) >= 0
        : bytes.IndexOf("ICC_PROFILE\0"u8) >= 0;

    private static SKImageInfo Format(int width, int height) =>
        new(width, height, SKColorType.Rgba8888, SKAlphaType.Unpremul, SKColorSpace.CreateSrgb());

    /// <summary>The pixels turned upright by the eight orientations of EXIF.</summary>
    private static byte[] Upright(byte[] pixels, int width, int height, int orientation, out int across, out int down)
    {
        (across, down) = orientation >= 5 ? (height, width) : (width, height);
        if (orientation == 1)
        {
            return pixels;
        }

        var from = System.Runtime.InteropServices.MemoryMarshal.Cast<byte, uint>(pixels.AsSpan());
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
