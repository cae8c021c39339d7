using Coldpeel.Craft.Artwork;
using Coldpeel.Craft.Measures;
using Coldpeel.Workshop.Artwork;
using Coldpeel.Workshop.Findings;

namespace Coldpeel.Files.Artwork;

/// <summary>The exact outlines of an artwork, or the reason in words why there are none.</summary>
/// <param name="Path">Outlines in mm of the design's frame, even-odd; null when there are none.</param>
/// <param name="WhyNot">Why the artwork has no exact outlines: its picture must be used instead.</param>
public sealed record VectorInk(InkPath? Path, Sentence? WhyNot);

/// <summary>A customer's artwork, read and checked, that can be drawn at any true size.</summary>
public abstract class SourceArtwork
{
    /// <summary>Pixels that a drawing may have at most, an A3 film at 600 an inch; a finer one is drawn with fewer dots a millimetre.</summary>
    public const long MostPixels = 70_000_000;

    /// <summary>SVG, PDF, PNG, JPEG, WebP or TIFF.</summary>
    public abstract string Kind { get; }

    /// <summary>Width that the file itself asks for, in mm.</summary>
    public abstract double OwnWidthMm { get; }

    /// <summary>Height that the file itself asks for, in mm.</summary>
    public abstract double OwnHeightMm { get; }

    /// <summary>Whether the file tells a size; if not, its size is taken at 96 pixels an inch and <see cref="SizeNote"/> says so.</summary>
    public abstract bool HasOwnSize { get; }

    /// <summary>What is taken for a size where the file tells none, one sentence; null where it tells one. Of no matter once a size is asked for.</summary>
    public abstract Sentence? SizeNote { get; }

    /// <summary>What the owner should know, one sentence each.</summary>
    public abstract IReadOnlyList<Sentence> Notes { get; }

    /// <summary>Source pixels an inch when made this wide; null when it is all outlines.</summary>
    public abstract double? SourceDpiAt(double widthMm);

    /// <summary>The artwork in colour at this size.</summary>
    /// <remarks>Pictures keep their own pixels: <see cref="Picture.PixelsPerMm"/> then tells how large they are, and <paramref name="dotsPerMm"/> plays no part.</remarks>
    public abstract Picture Draw(double widthMm, double heightMm, double dotsPerMm);

    /// <summary>The exact outlines of what prints, where the artwork is flat enough to have them.</summary>
    /// <param name="strength">How much toner a flat paint of this colour and alpha becomes: 0 none to 1 solid.</param>
    /// <param name="widthMm">Width of the design's frame.</param>
    /// <param name="heightMm">Height of the design's frame.</param>
    public abstract VectorInk Ink(Func<Rgb, byte, double> strength, double widthMm, double heightMm);

    /// <summary>Its texts and how large they come out at this size, where they are known as text: not in pictures or outlines.</summary>
    public virtual IReadOnlyList<SetText> Texts(double widthMm, double heightMm) => [];

    /// <summary>The size in its own proportions: by width, by height, the largest that fits both, or its own.</summary>
    public (double WidthMm, double HeightMm) SizeFor(double? widthMm, double? heightMm)
    {
        var byWidth = widthMm is { } w ? Need.Positive(w) / OwnWidthMm : double.PositiveInfinity;
        var byHeight = heightMm is { } h ? Need.Positive(h) / OwnHeightMm : double.PositiveInfinity;
        var scale = Math.Min(byWidth, byHeight);
        if (double.IsInfinity(scale))
        {
            return (OwnWidthMm, OwnHeightMm);
        }

        // The side that was asked for comes out exactly as asked.
        return byWidth <= byHeight ? (widthMm!.Value, OwnHeightMm * scale) : (OwnWidthMm * scale, heightMm!.Value);
    }
}
