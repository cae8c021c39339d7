using Shim = ShimSkiaSharp;

namespace Coldpeel.Files.Artwork;

/// <summary>The work of a filter over an area, in its steps; inputs used twice are counted twice, as they may be drawn.</summary>
/// <param name="scale">Units of the page in a unit of the filter.</param>
/// <param name="nested">The work of a picture that a step draws.</param>
internal sealed class SvgFilterWork(double scale, Func<Shim.SKPicture, SvgDrawWork> nested)
{
    private const double Point = 12e-9;
    private const double Blur = 25e-9;
    private const double Octave = 18e-9;
    private const double Cell = 6e-9;
    private const double Lamp = 700e-9;
    private const double Step = 20e-9;

    private readonly Dictionary<Shim.SKImageFilter, SvgDrawWork> _known = new(ReferenceEqualityComparer.Instance);

    public SvgDrawWork Of(Shim.SKImageFilter? filter, double area)
    {
        if (filter is null)
        {
            return default;
        }

        if (!_known.TryGetValue(filter, out var work))
        {
            _known[filter] = work = Own(filter, area);
        }

        return work;
    }

    private SvgDrawWork Own(Shim.SKImageFilter filter, double area) =>
        filter switch
        {
            Shim.BlurImageFilter f => Each(Blur, area) + Of(f.Input, area),
            Shim.DilateImageFilter f => Wide(f.RadiusX, f.RadiusY, area) + Of(f.Input, area),
            Shim.ErodeImageFilter f => Wide(f.RadiusX, f.RadiusY, area) + Of(f.Input, area),
            Shim.MatrixConvolutionImageFilter f => Each(Cell * Math.Max(1, f.Kernel?.Length ?? 1), area)
                + Of(f.Input, area),
            Shim.ColorFilterImageFilter f => Each(Point, area) + Of(f.Input, area),
            Shim.OffsetImageFilter f => Each(Point, area) + Of(f.Input, area),
            Shim.TileImageFilter f => Each(Point, area) + Of(f.Input, area),
            Shim.DisplacementMapEffectImageFilter f => Each(2 * Point, area)
                + Of(f.Displacement, area)
                + Of(f.Input, area),
            Shim.ArithmeticImageFilter f => Each(2 * Point, area) + Of(f.Background, area) + Of(f.Foreground, area),
            Shim.BlendModeImageFilter f => Each(2 * Point, area) + Of(f.Background, area) + Of(f.Foreground, area),
            Shim.MergeImageFilter f => (f.Filters ?? []).Aggregate(
                default(SvgDrawWork),
                (sum, input) => sum + Each(Point, area) + Of(input, area)
            ),
            Shim.DistantLitDiffuseImageFilter f => Each(Lamp, area) + Of(f.Input, area),
            Shim.DistantLitSpecularImageFilter f => Each(Lamp, area) + Of(f.Input, area),
            Shim.PointLitDiffuseImageFilter f => Each(Lamp, area) + Of(f.Input, area),
            Shim.PointLitSpecularImageFilter f => Each(Lamp, area) + Of(f.Input, area),
            Shim.SpotLitDiffuseImageFilter f => Each(Lamp, area) + Of(f.Input, area),
            Shim.SpotLitSpecularImageFilter f => Each(Lamp, area) + Of(f.Input, area),
            Shim.ShaderImageFilter f => Each(Shade(f.Shader), area),
            Shim.PaintImageFilter f => Each(Shade(f.Paint?.Shader), area),
            Shim.PictureImageFilter { Picture: { } picture } => Each(Point, area) + nested(picture),
            // What is not known is taken for the dearest.
            Shim.ImageImageFilter => Each(Point, area),
            _ => Each(Lamp, area),
        };

    private static double Shade(Shim.SKShader? shader) =>
        shader switch
        {
            Shim.PerlinNoiseFractalNoiseShader noise => Octave * Math.Clamp(noise.NumOctaves, 1, 255),
            Shim.PerlinNoiseTurbulenceShader noise => Octave * Math.Clamp(noise.NumOctaves, 1, 255),
            _ => Point,
        };

    private static SvgDrawWork Each(double seconds, double area) => new(0, 0, seconds * area, 0, 0);

    /// <summary>Every pixel looks as far as the radius, across and down.</summary>
    private SvgDrawWork Wide(double x, double y, double area) =>
        new(0, 0, Point * area, Step * scale * (Math.Max(0, x) + Math.Max(0, y)) * area, 0);
}
