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
    private const double FaintDeltaE = 12;

    /// <summary>Share of the drawing from which a colour is one of its own, and from which a light or dark detail is one.</summary>
    private const double LeastColour = 0.03;
    private const double LeastDetail = 0.0005;
    private static readonly Rgb Paper = new(255, 255, 255);

    /// <summary>The choice for this picture.</summary>
    public static PrintsChoice Choose(Picture picture)
    {
        ArgumentNullException.ThrowIfNull(picture);
        if (PictureGround.Opaque(picture) is not { } box)
        {
            return new(new Prints.Opaque(), "everything in it is transparent, so nothing prints");
        }

        var area = (double)(box.Right - box.Left) * (box.Bottom - box.Top);
        var full = box.Count > 0.985 * area;
        var framed = area < 0.98 * picture.Width * picture.Height;
        return full ? OnGround(picture, box, framed) : OnTransparent(picture, box);
    }

    /// <summary>The drawing stands on transparency: all of it prints, unless that would fill its own details.</summary>
    private static PrintsChoice OnTransparent(Picture picture, OpaqueBox box)
    {
        var census = ColourCensus.Of(picture, box.Left, box.Top, box.Right, box.Bottom);
        if (census.IsPhotograph)
        {
            return Photograph(picture, box, "its background is transparent and it has many tones", "");
        }

        var main = census.Colours.Count == 0 ? default : census.Colours[0];
        // Light on dark or dark on light is a detail however little it is: an eye, a hole, a serif. Other colours may be edges.
        bool Against(FlatColour c) =>
            main.Lightness < 40 ? c.Lightness >= 60 : main.Lightness >= 60 && c.Lightness < 40;
        var other = census
            .Colours.Skip(1)
            .FirstOrDefault(c =>
                c.Share >= (Against(c) ? LeastDetail : LeastColour) && Difference(c.Colour, main.Colour) > 25
            );
        if (other.Share == 0)
        {
            return new(
                new Prints.Opaque(),
                "its background is transparent and the drawing has one tone, so all that is not transparent prints"
            );
        }

        var (light, dark) = (ShareOf(census, c => c.Lightness >= 60), ShareOf(census, c => c.Lightness < 40));
        if (light + dark > 0.95 && Math.Min(light, dark) > (Against(other) ? LeastDetail / 2 : 0.02))
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
            : Pick(
                kept,
                left,
                $"its background is transparent and most of the drawing is {ColourName.Of(main.Colour)}"
            );
    }

    /// <summary>The picture (or its opaque rectangle) is filled: the border tells the ground.</summary>
    private static PrintsChoice OnGround(Picture picture, OpaqueBox box, bool framed)
    {
        var (ground, evenness) = PictureGround.Border(picture, box);
        var census = ColourCensus.Of(picture, box.Left, box.Top, box.Right, box.Bottom);
        var lightness = Srgb.ToLab(ground).L;
        if (evenness < 0.8)
        {
            return Photograph(
                picture,
                box,
                "it is a picture with many tones right to its border",
                "; look whether a box round it is wanted"
            );
        }

        var drawing = census.Colours.Where(c => c.Share > 0.0005 && Difference(c.Colour, ground) > 20).ToList();
        var where = framed
            ? $"a {ColourName.Of(ground)} box stands round it"
            : $"its ground is {ColourName.Of(ground)}";
        var total = drawing.Sum(c => c.Share);
        if (drawing.Count == 0)
        {
            return OneTone(census, ground, framed);
        }

        if (!framed && InBox(picture, box, ground) is { } inner)
        {
            return inner;
        }

        var dark = drawing.Where(c => c.Lightness < 45).Sum(c => c.Share) / total;
        var light = drawing.Where(c => c.Lightness > 55).Sum(c => c.Share) / total;
        if (lightness >= 60 && dark > 0.9)
        {
            return new(
                new Prints.Dark(lightness),
                $"{where} and the drawing on it is dark, so what is dark prints and the ground does not"
            );
        }

        if (lightness < 40 && light > 0.9)
        {
            return new(
                new Prints.Light(lightness),
                $"{where} and the drawing on it is light, so what is light prints and the ground does not"
            );
        }

        if (census.IsPhotograph)
        {
            return lightness >= 50
                ? new(
                    new Prints.Dark(lightness),
                    $"{where} and the picture on it has many tones, so what is dark prints and the ground does not"
                )
                : new(
                    new Prints.Light(lightness),
                    $"{where} and the picture on it has many tones, so what is light prints and the ground does not"
                );
        }

        // White inside a drawing on a white ground stays open like the ground; other colours all print.
        return Pick(drawing, [], $"{where} and lightness alone does not tell it from the drawing");
    }

    /// <summary>Nothing stands out: an even area is the drawing itself, but for bare paper; a faint drawing is picked by its colours.</summary>
    private static PrintsChoice OneTone(ColourCensus census, Rgb ground, bool framed)
    {
        var faint = census.Colours.Where(c => c.Share > 0.005 && Difference(c.Colour, ground) > FaintDeltaE).ToList();
        if (faint.Count > 0)
        {
            var lab = new FlatColour(ground, Srgb.ToLab(ground).L, 1);
            return Pick(faint, [lab], $"a faint drawing stands on a {ColourName.Of(ground)} ground");
        }

        return framed
                ? new(
                    new Prints.Opaque(),
                    $"it is one even {ColourName.Of(ground)} area on transparency, so all of it prints"
                )
            : Difference(ground, Paper) < PictureGround.NoiseDeltaE
                ? new(new Prints.Dark(), "it is bare paper with nothing on it, so nothing prints")
            : new(new Prints.Opaque(), $"it is one even {ColourName.Of(ground)} area, so all of it prints");
    }

    /// <summary>The choice for a drawing in a box of one colour that stands on the page's ground; null where there is no such box, or where leaving it open would print the page.</summary>
    private static PrintsChoice? InBox(Picture picture, OpaqueBox page, Rgb ground)
    {
        if (InnerBox.Of(picture, page.Left, page.Top, page.Right, page.Bottom, ground) is not { } found)
        {
            return null;
        }

        var box = new OpaqueBox(found.Left, found.Top, found.Right, found.Bottom, 0);
        var (tone, evenness) = PictureGround.Border(picture, box);
        var census = ColourCensus.Of(picture, box.Left, box.Top, box.Right, box.Bottom);
        if (evenness < 0.8 || !census.Colours.Any(c => c.Share > 0.0005 && Difference(c.Colour, tone) > 20))
        {
            return null;
        }

        var choice = OnGround(picture, box, framed: true);
        return PrintsRule.Strength(choice.Prints, ground, byte.MaxValue) < 0.1 ? choice : null;
    }

    /// <summary>Many tones print as they look on dark fabric, the light ones; where there are none, the dark ones.</summary>
    private static PrintsChoice Photograph(Picture picture, OpaqueBox box, string why, string look)
    {
        var (light, all) = (0, 0);
        var stride = Math.Max(1, (int)Math.Sqrt((double)(box.Right - box.Left) * (box.Bottom - box.Top) / 1e5));
        for (var y = box.Top; y < box.Bottom; y += stride)
        {
            for (var x = box.Left; x < box.Right; x += stride)
            {
                var p = picture.Rgba.AsSpan(4 * ((y * picture.Width) + x), 4);
                all += p[3] >= 128 ? 1 : 0;
                light += p[3] >= 128 && Srgb.ToLab(new(p[0], p[1], p[2])).L >= 50 ? 1 : 0;
            }
        }

        return light > 0.001 * all
            ? new(new Prints.Light(), $"{why}, so what is light prints, as it would look on dark fabric{look}")
            : new(new Prints.Dark(), $"{why} and none of them is light, so what is dark prints{look}");
    }

    private static PrintsChoice Pick(List<FlatColour> kept, List<FlatColour> left, string why)
    {
        // Half way to the nearest colour that must stay open, and never so wide that a pale ground joins in.
        var nearest = kept.SelectMany(k => left.Select(l => Difference(k.Colour, l.Colour))).DefaultIfEmpty(30).Min();
        var names = string.Join(", ", kept.Take(3).Select(c => ColourName.Of(c.Colour)).Distinct());
        return new(
            new Prints.Colours([.. kept.Select(c => c.Colour)], Math.Clamp(nearest / 2, 6, 15)),
            $"{why}, so its colours print ({names}{(kept.Count > 3 ? " and more" : "")})"
        );
    }

    private static double ShareOf(ColourCensus census, Func<FlatColour, bool> which) =>
        census.Colours.Where(which).Sum(c => c.Share) / Math.Max(1e-9, census.Named);

    private static double Difference(Rgb one, Rgb other) => Ciede2000.Difference(Srgb.ToLab(one), Srgb.ToLab(other));

    private static string Percent(double share) => $"{Math.Round(share * 100):0} %";
}
