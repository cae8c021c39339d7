using System.Collections.Immutable;

namespace Coldpeel.Craft.Artwork;

/// <summary>What prints, and the reason in plain words.</summary>
/// <param name="Prints">Never <see cref="Prints.Auto"/>.</param>
/// <param name="Because">One sentence for the owner.</param>
public sealed record PrintsChoice(Prints Prints, string Because);

/// <summary>Chooses what of a picture becomes white toner, when nobody said.</summary>
/// <remarks>
/// It looks for the ground (transparency, or one colour along the border even through JPEG noise) and prints what stands on it. Where
/// lightness alone does not part drawing and ground (a yellow logo on white), it names the drawing's colours instead.
/// </remarks>
public static class PrintsChooser
{
    private const double BorderNoiseDeltaE = 10;

    /// <summary>The choice for this picture.</summary>
    public static PrintsChoice Choose(Picture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        if (OpaqueBox(picture) is not { } box)
        {
            return new(new Prints.Opaque(), "everything in it is transparent, so nothing prints");
        }

        var area = (double)(box.Right - box.Left) * (box.Bottom - box.Top);
        var full = box.Count > 0.985 * area;
        var framed = area < 0.98 * picture.Width * picture.Height;
        return full ? OnGround(picture, box, framed) : OnTransparent(picture, box);
    }

    /// <summary>The drawing stands on transparency: all of it prints, unless that would fill its own details.</summary>
    private static PrintsChoice OnTransparent(Picture picture, Box box)
    {
        var census = ColourCensus.Of(picture, box.Left, box.Top, box.Right, box.Bottom);
        if (census.IsPhotograph)
        {
            return new(
                new Prints.Light(),
                "its background is transparent and it has many tones, so what is light prints, as it would look on dark fabric"
            );
        }

        var main = census.Colours.Count == 0 ? default : census.Colours[0];
        var other = census
            .Colours.Skip(1)
            .FirstOrDefault(c => c.Share >= 0.03 && Difference(c.Colour, main.Colour) > 25);
        if (other.Share == 0)
        {
            return new(
                new Prints.Opaque(),
                "its background is transparent and the drawing has one tone, so all that is not transparent prints"
            );
        }

        var (light, dark) = (ShareOf(census, c => c.Lightness >= 60), ShareOf(census, c => c.Lightness < 40));
        if (light + dark > 0.95 && Math.Min(light, dark) > 0.02)
        {
            return light >= dark
                ? new(
                    new Prints.Light(),
                    $"its background is transparent and the drawing is mostly light ({Percent(light)}) with dark details, so what is light prints and the details stay open"
                )
                : new(
                    new Prints.Dark(),
                    $"its background is transparent and the drawing is mostly dark ({Percent(dark)}) with light details, so what is dark prints and the details stay open"
                );
        }

        // The colours that go with the largest one print; those that stand against it by lightness are its details.
        var kept = census.Colours.Where(c => Math.Abs(c.Lightness - main.Lightness) < 25).ToList();
        var left = census.Colours.Where(c => Math.Abs(c.Lightness - main.Lightness) >= 25 && c.Share >= 0.02).ToList();
        return left.Count == 0
            ? new(
                new Prints.Opaque(),
                "its background is transparent and its colours are about equally light, so all that is not transparent prints"
            )
            : Pick(kept, left, $"its background is transparent and most of the drawing is {Name(main.Colour)}");
    }

    /// <summary>The picture (or its opaque rectangle) is filled: the border tells the ground.</summary>
    private static PrintsChoice OnGround(Picture picture, Box box, bool framed)
    {
        var (ground, evenness) = Border(picture, box);
        var census = ColourCensus.Of(picture, box.Left, box.Top, box.Right, box.Bottom);
        var lightness = Srgb.ToLab(ground).L;
        if (evenness < 0.8)
        {
            return new(
                new Prints.Light(),
                "it is a picture with many tones right to its border, so what is light prints, as it would look on dark fabric; look whether a box round it is wanted"
            );
        }

        var drawing = census.Colours.Where(c => c.Share > 0.0005 && Difference(c.Colour, ground) > 20).ToList();
        var where = framed ? $"a {Name(ground)} box stands round it" : $"its ground is {Name(ground)}";
        var total = drawing.Sum(c => c.Share);
        if (drawing.Count == 0)
        {
            return lightness >= 50
                ? new(new Prints.Dark(), $"{where}; what is darker than mid-grey prints")
                : new(new Prints.Light(), $"{where}; what is lighter than mid-grey prints");
        }

        var dark = drawing.Where(c => c.Lightness < 45).Sum(c => c.Share) / total;
        var light = drawing.Where(c => c.Lightness > 55).Sum(c => c.Share) / total;
        if (lightness >= 60 && dark > 0.9)
        {
            return new(
                new Prints.Dark(),
                $"{where} and the drawing on it is dark, so what is dark prints and the ground does not"
            );
        }

        if (lightness < 40 && light > 0.9)
        {
            return new(
                new Prints.Light(),
                $"{where} and the drawing on it is light, so what is light prints and the ground does not"
            );
        }

        if (census.IsPhotograph)
        {
            return lightness >= 60
                ? new(
                    new Prints.Dark(),
                    $"{where} and the picture on it has many tones, so what is dark prints and the ground does not"
                )
                : new(
                    new Prints.Light(),
                    $"{where} and the picture on it has many tones, so what is light prints and the ground does not"
                );
        }

        // White inside a drawing on a white ground stays open like the ground; other colours all print.
        return Pick(drawing, [], $"{where} and lightness alone does not tell it from the drawing");
    }

    private static PrintsChoice Pick(List<FlatColour> kept, List<FlatColour> left, string why)
    {
        // Half way to the nearest colour that must stay open, and never so wide that a pale ground joins in.
        var nearest = kept.SelectMany(k => left.Select(l => Difference(k.Colour, l.Colour))).DefaultIfEmpty(30).Min();
        var names = string.Join(", ", kept.Take(3).Select(c => Name(c.Colour)).Distinct());
        return new(
            new Prints.Colours([.. kept.Select(c => c.Colour)], Math.Clamp(nearest / 2, 6, 15)),
            $"{why}, so its colours print ({names}{(kept.Count > 3 ? " and more" : "")})"
        );
    }

    /// <summary>
    /// The colour along the border of a picture's opaque part and the share of the border that has it; null when that part is no filled rectangle.
    /// </summary>
    internal static (Rgb Ground, double Evenness)? GroundOf(Picture picture) =>
        OpaqueBox(picture) is { } box && box.Count > 0.985 * (box.Right - box.Left) * (box.Bottom - box.Top)
            ? Border(picture, box)
            : null;

    private static (Rgb Ground, double Evenness) Border(Picture picture, Box box)
    {
        var ring = Math.Max(1, Math.Min(box.Right - box.Left, box.Bottom - box.Top) / 100);
        var pixels = new List<Rgb>();
        for (var y = box.Top; y < box.Bottom; y++)
        {
            var inner = y >= box.Top + ring && y < box.Bottom - ring;
            for (var x = box.Left; x < box.Right; x++)
            {
                if (inner && x == box.Left + ring)
                {
                    x = Math.Max(x, box.Right - ring);
                }

                var i = ((y * picture.Width) + x) * 4;
                pixels.Add(new(picture.Rgba[i], picture.Rgba[i + 1], picture.Rgba[i + 2]));
            }
        }

        // The middle value of each channel ignores dirt and a drawing that touches the border here and there.
        var ground = new Rgb(
            Middle(pixels.Select(p => p.R)),
            Middle(pixels.Select(p => p.G)),
            Middle(pixels.Select(p => p.B))
        );
        var lab = Srgb.ToLab(ground);
        var near = pixels
            .GroupBy(p => p)
            .Where(g => Ciede2000.Difference(Srgb.ToLab(g.Key), lab) < BorderNoiseDeltaE)
            .Sum(g => g.Count());
        return (ground, (double)near / pixels.Count);
    }

    private static Box? OpaqueBox(Picture picture)
    {
        var box = new Box(picture.Width, picture.Height, 0, 0, 0);
        for (var y = 0; y < picture.Height; y++)
        {
            for (var x = 0; x < picture.Width; x++)
            {
                if (picture.Rgba[((y * picture.Width) + x) * 4 + 3] >= 128)
                {
                    box = new(
                        Math.Min(box.Left, x),
                        Math.Min(box.Top, y),
                        Math.Max(box.Right, x + 1),
                        Math.Max(box.Bottom, y + 1),
                        box.Count + 1
                    );
                }
            }
        }

        return box.Count == 0 ? null : box;
    }

    private static byte Middle(IEnumerable<byte> values)
    {
        var sorted = values.Order().ToImmutableArray();
        return sorted[sorted.Length / 2];
    }

    private static double ShareOf(ColourCensus census, Func<FlatColour, bool> which) =>
        census.Colours.Where(which).Sum(c => c.Share) / Math.Max(1e-9, census.Named);

    private static double Difference(Rgb one, Rgb other) => Ciede2000.Difference(Srgb.ToLab(one), Srgb.ToLab(other));

    private static string Percent(double share) => $"{Math.Round(share * 100):0} %";

    /// <summary>A name that a person would use, by lightness, chroma and hue.</summary>
    private static string Name(Rgb colour)
    {
        var lab = Srgb.ToLab(colour);
        var chroma = Math.Sqrt((lab.A * lab.A) + (lab.B * lab.B));
        if (chroma < 10)
        {
            return lab.L switch
            {
                < 20 => "black",
                < 40 => "dark grey",
                < 65 => "grey",
                < 85 => "light grey",
                < 97 => "pale",
                _ => "white",
            };
        }

        var hue = ((Math.Atan2(lab.B, lab.A) * 180 / Math.PI) + 360) % 360;
        var name = hue switch
        {
            < 15 => "pink or red",
            < 50 => lab.L < 35 ? "brown" : "red",
            < 80 => lab.L < 50 ? "brown" : "orange",
            < 110 => "yellow",
            < 180 => "green",
            < 230 => "turquoise",
            < 310 => "blue",
            < 345 => "violet",
            _ => "pink or red",
        };
        return lab.L < 25 ? $"dark {name}"
            : lab.L > 88 && chroma < 30 ? $"pale {name}"
            : name;
    }

    private readonly record struct Box(int Left, int Top, int Right, int Bottom, int Count);
}
