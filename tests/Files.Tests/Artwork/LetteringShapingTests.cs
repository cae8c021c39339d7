using System.Text.Json;
using CliWrap;
using CliWrap.Buffered;
using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Artwork.Lettering;
using Coldpeel.Workshop.Artwork;
using SkiaSharp;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>Words as glyphs and as ink, held against hb-shape (HarfBuzz's own program) and rsvg-convert (Pango, fontconfig, cairo).</summary>
public sealed class LetteringShapingTests
{
    public static TheoryData<string, string> Words =>
        new()
        {
            { "Inter", "Åsa Ćosić" },
            { "Inter", "Nguyễn AVATAR 1/2" },
            { "Inter", "A\u030Asa" },
            { "DejaVu Sans", "Åsa ffi Nguyễn" },
            { "DejaVu Sans", "שָׁלוֹם" },
            { "DejaVu Sans", "فاطمة لا" },
            { "Noto Sans", "Ćosić fi Жанна Ωmega" },
            { "Noto Naskh Arabic", "مُحَمَّد الله" },
            { "Noto Sans Hebrew", "רָחֵל" },
            { "Pacifico", "Wilhelmina Ottilie" },
            { "Oswald", "Ida 12" },
        };

    [Theory]
    [MemberData(nameof(Words))]
    public async Task Words_are_shaped_as_by_hb_shape(string font, string word)
    {
        using var face = LetteringFonts.Face(font);
        var shaped = LineShaper.Shape(face, word, 0);
        var run = await Cli.Wrap(Place.Tool("hb-shape"))
            .WithArguments([
                "--output-format=json",
                "--no-glyph-names",
                "--language=und",
                LetteringFonts.PathOf(font),
                word,
            ])
            .ExecuteBufferedAsync(TestContext.Current.CancellationToken);
        var theirs = new List<PlacedGlyph>();
        var x = 0;
        foreach (var g in JsonDocument.Parse(run.StandardOutput).RootElement.EnumerateArray())
        {
            theirs.Add(
                new(
                    (ushort)g.GetProperty("g").GetInt32(),
                    x + g.GetProperty("dx").GetInt32(),
                    g.GetProperty("dy").GetInt32()
                )
            );
            x += g.GetProperty("ax").GetInt32();
        }

        Assert.Empty(shaped.Missing);
        Assert.Equal(theirs, shaped.Glyphs.Select(g => g with { Middle = 0 }));
        Assert.Equal(x, shaped.Advance);
    }

    [Fact]
    public void A_ligature_is_one_letter_and_opens_when_letters_are_tracked()
    {
        using var face = LetteringFonts.Face("DejaVu Sans");
        Assert.Single(LineShaper.Shape(face, "fi", 0).Glyphs);
        Assert.Equal(2, LineShaper.Shape(face, "fi", 100).Glyphs.Count);
    }

    [Fact]
    public void Tracking_stands_between_letters_and_not_after_the_last()
    {
        using var face = LetteringFonts.Face("Inter");
        LetteringRequest At(double percent) => new("", "Inter", 20, percent);
        var tight = LetteringSetter.Set(face, At(0), "HHÅH").WidthMm;
        Assert.Equal(tight + (3 * 0.10 * 20), LetteringSetter.Set(face, At(10), "HHÅH").WidthMm, 1e-3);
        Assert.Equal(tight - (3 * 0.02 * 20), LetteringSetter.Set(face, At(-2), "HHA\u030AH").WidthMm, 1e-3);
    }

    [Fact]
    public void Tracking_never_tears_joined_Arabic_letters_but_widens_the_space_between_words()
    {
        using var face = LetteringFonts.Face("DejaVu Sans");
        var name = LineShaper.Shape(face, "فاطمة", 0);
        Assert.Equal(name.Glyphs, LineShaper.Shape(face, "فاطمة", 500).Glyphs);
        var two = LineShaper.Shape(face, "علي فاطمة", 0).Advance;
        Assert.Equal(two + 1000, LineShaper.Shape(face, "علي فاطمة", 500).Advance);
    }

    public static TheoryData<string, string> Inked =>
        new()
        {
            { "Inter", "Åsa Ćosić" },
            { "Inter", "Nguyễn AVATAR" },
            { "DejaVu Sans", "fi Ćosić 17" },
            { "DejaVu Sans", "שלום 12 Åsa" },
            { "DejaVu Sans", "No. 7 فاطمة (12) علي" },
            { "Noto Naskh Arabic", "مُحَمَّد" },
            { "Pacifico", "Wilhelmina" },
            { "Saira Stencil One", "CREW 2068" },
            { "Alfa Slab One", "Ćosić" },
            { "Varela Round", "Åsa Bo" },
        };

    [Theory]
    [MemberData(nameof(Inked))]
    public async Task The_ink_lies_where_an_independent_renderer_puts_it(string font, string text)
    {
        using var face = LetteringFonts.Face(font);
        // 100 dots a capital's height; the font's size follows from its own figures.
        var set = LetteringSetter.Set(face, new("", font, 100), text);
        Assert.Empty(set.MissingLetters);
        Assert.Null(set.Note);
        var size = 100 * face.UnitsPerEm / face.CapHeight;
        var (width, height) = ((int)set.WidthMm + 400, 700);
        var folder = Place.NewFolder();
        BidiLine.Levels(text, out var paragraph);
        var svg = FormattableString.Invariant(
            $"<svg xmlns='http://www.w3.org/2000/svg' width='{width}' height='{height}'><rect width='100%' height='100%' fill='white'/><text x='{width / 2}' y='350' text-anchor='middle' font-family='{font}' font-size='{size}' xml:space='preserve' text-rendering='geometricPrecision' direction='{(paragraph == 1 ? "rtl" : "ltr")}'>{text}</text></svg>"
        );
        await File.WriteAllTextAsync(Path.Combine(folder, "text.svg"), svg, TestContext.Current.CancellationToken);
        await Cli.Wrap(Place.Tool("rsvg-convert"))
            .WithWorkingDirectory(folder)
            .WithArguments(["text.svg", "-o", "theirs.png"])
            .WithEnvironmentVariables(e => e.Set("FONTCONFIG_FILE", LetteringFonts.Fontconfig(font)))
            .ExecuteBufferedAsync(TestContext.Current.CancellationToken);
        using var theirs = SKBitmap.Decode(Path.Combine(folder, "theirs.png"));
        var box = InkBox(theirs);
        Assert.Equal(set.WidthMm, box.Width, 2.0);
        Assert.Equal(set.HeightMm, box.Height, 2.0);
        var ours = Drawn(set.Path, theirs.Width, theirs.Height, box);
        var (both, either) = (0, 0);
        for (var y = 0; y < theirs.Height; y++)
        {
            for (var x = 0; x < theirs.Width; x++)
            {
                var (a, b) = (theirs.GetPixel(x, y).Red < 128, ours.GetPixel(x, y).Red < 128);
                both += a && b ? 1 : 0;
                either += a || b ? 1 : 0;
            }
        }

        // Two renderers at 100 dots a capital differ by a fraction of a dot along every edge.
        Assert.True(both > 0.95 * either, $"Only {100.0 * both / either:0.0} % of the ink is common to both.");
    }

    private static SKRectI InkBox(SKBitmap bitmap)
    {
        var (left, top, right, bottom) = (int.MaxValue, int.MaxValue, 0, 0);
        for (var y = 0; y < bitmap.Height; y++)
        {
            for (var x = 0; x < bitmap.Width; x++)
            {
                if (bitmap.GetPixel(x, y).Red < 128)
                {
                    (left, top, right, bottom) = (
                        Math.Min(left, x),
                        Math.Min(top, y),
                        Math.Max(right, x + 1),
                        Math.Max(bottom, y + 1)
                    );
                }
            }
        }

        return new(left, top, right, bottom);
    }

    private static SKBitmap Drawn(InkPath path, int width, int height, SKRectI box)
    {
        using var builder = new SKPathBuilder { FillType = SKPathFillType.EvenOdd };
        foreach (var s in path.Steps)
        {
            switch (s.Move)
            {
                case PathMove.Start:
                    builder.MoveTo((float)s.End.X, (float)s.End.Y);
                    break;
                case PathMove.Line:
                    builder.LineTo((float)s.End.X, (float)s.End.Y);
                    break;
                case PathMove.Curve:
                    builder.CubicTo(
                        (float)s.First.X,
                        (float)s.First.Y,
                        (float)s.Second.X,
                        (float)s.Second.Y,
                        (float)s.End.X,
                        (float)s.End.Y
                    );
                    break;
                case PathMove.Close:
                    builder.Close();
                    break;
            }
        }

        var bitmap = new SKBitmap(width, height);
        using var canvas = new SKCanvas(bitmap);
        using var paint = new SKPaint { Color = SKColors.Black, IsAntialias = true };
        canvas.Clear(SKColors.White);
        var drawn = builder.Detach();
        // Their box is whole dots; ours is put in its middle.
        var own = drawn.TightBounds;
        canvas.Translate(((box.Left + box.Right) / 2f) - own.MidX, ((box.Top + box.Bottom) / 2f) - own.MidY);
        canvas.DrawPath(drawn, paint);
        if (Environment.GetEnvironmentVariable("LETTERING_OUT") is { } folder)
        {
            using var file = File.Create(Path.Combine(folder, $"{Guid.NewGuid():N}.png"));
            bitmap.Encode(file, SKEncodedImageFormat.Png, 90);
        }

        return bitmap;
    }

    [Fact]
    public void The_font_size_follows_from_the_height_of_its_capitals()
    {
        // 1409 units of 2048 make a capital of 100 mm: the size is 145.3513 mm (computed, dossier 11). Liberation Sans has these
        // figures, and its em dash is as long as the size.
        using var face = LetteringFonts.Face("Liberation Sans");
        Assert.Equal((1409, 2048), (face.CapHeight, face.UnitsPerEm));
        Assert.Equal(145.3513, LetteringSetter.Set(face, new("", "", 100), "—").WidthMm, 0.0001);
    }

    [Fact]
    public void Text_that_is_too_wide_is_set_smaller_until_it_fits_and_says_so()
    {
        using var face = LetteringFonts.Face("Inter");
        var free = LetteringSetter.Set(face, new("", "", 20, 5), "Wilhelmina");
        var kept = LetteringSetter.Set(face, new("", "", 20, 5, 80), "Wilhelmina");
        Assert.Null(free.Note);
        Assert.Equal(80, kept.WidthMm, 1e-9);
        Assert.Equal(20 * 80 / free.WidthMm, kept.CapHeightMm, 1e-9);
        Assert.Equal(free.HeightMm * 80 / free.WidthMm, kept.HeightMm, 1e-9);
        Assert.StartsWith("Set ", kept.Note?.English, StringComparison.Ordinal);
        Assert.Null(LetteringSetter.Set(face, new("", "", 20, 5, free.WidthMm), "Wilhelmina").Note);
    }

    [Fact]
    public void Lines_are_centred_by_their_ink_and_stand_the_fonts_own_distance_apart()
    {
        using var face = LetteringFonts.Face("Inter");
        var set = LetteringSetter.Set(face, new("", "", 20), "HIH  \r\nI");
        var upper = InkOutline.Box(set.Path.Steps.Where(s => s.Move != PathMove.Close && s.End.Y <= 20.001));
        var lower = InkOutline.Box(set.Path.Steps.Where(s => s.Move != PathMove.Close && s.End.Y > 20.001));
        Assert.Equal(upper.Left + upper.Right, lower.Left + lower.Right, 1e-6);
        Assert.Equal(20 * face.LineHeight / face.CapHeight, lower.Bottom - upper.Bottom, 1e-3);
    }

    [Fact]
    public void The_same_text_always_gives_the_same_outlines()
    {
        using var one = LetteringFonts.Face("Inter");
        using var two = LetteringFonts.Face("Inter");
        var first = LetteringSetter.Set(one, new("", "", 20, 3, 90), "Åsa Ćosić\nשלום 12");
        LetteringSetter.Set(two, new("", "", 7), "other");
        var second = LetteringSetter.Set(two, new("", "", 20, 3, 90), "Åsa Ćosić\nשלום 12");
        Assert.Equal(first.Path.Steps, second.Path.Steps);
        Assert.Equal(first with { Path = second.Path, MissingLetters = second.MissingLetters }, second);
    }
}
