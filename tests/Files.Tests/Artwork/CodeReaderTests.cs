using Coldpeel.Craft.Artwork;
using Coldpeel.Files.Artwork.Codes;
using ZXing;
using ZXing.Common;

namespace Coldpeel.Files.Tests.Artwork;

/// <summary>Codes drawn with elements and room of known size, as they lie on fabric: what is read and measured must be what was drawn.</summary>
public sealed class CodeReaderTests(ITestOutputHelper output)
{
    private const double Dpm = 600 / 25.4;

    private static BitMatrix Matrix(BarcodeFormat format, string text) =>
        new BarcodeWriterGeneric
        {
            Format = format,
            Options = new EncodingOptions { Margin = 0, NoPadding = true },
        }.Encode(text);

    /// <summary>A plane with the code's dark parts as ink (as a customer's black code becomes white), turned about its middle.</summary>
    private static WhitePlane Inked(
        BitMatrix code,
        double module,
        double roomMm,
        double turn = 0,
        bool bars = false,
        double? fieldModules = null
    )
    {
        var (w, h) = (code.Width * module, bars ? 18 : code.Height * module);
        var (width, height) = (w + (2 * roomMm), h + (2 * roomMm));
        (width, height) = turn == 0 ? (width, height) : (Math.Max(width, height), Math.Max(width, height));
        var (c, s) = (Math.Cos(turn * Math.PI / 180), Math.Sin(turn * Math.PI / 180));
        var (across, down) = ((int)Math.Round(width * Dpm), (int)Math.Round(height * Dpm));
        var coverage = new byte[across * down];
        for (var y = 0; y < down; y++)
        {
            for (var x = 0; x < across; x++)
            {
                var (dx, dy) = (((x + 0.5) / Dpm) - (width / 2), ((y + 0.5) / Dpm) - (height / 2));
                var (u, v) = ((dx * c) + (dy * s) + (w / 2), (dy * c) - (dx * s) + (h / 2));
                var inside = u >= 0 && v >= 0 && u < w && v < h;
                var dark =
                    inside
                    && code[
                        Math.Min(code.Width - 1, (int)(u / module)),
                        bars ? 0 : Math.Min(code.Height - 1, (int)(v / module))
                    ];
                var field = fieldModules * module;
                var white = field is null
                    ? dark
                    : !dark && u >= -field && v >= -field && u < w + field && v < h + field;
                coverage[(y * across) + x] = white ? (byte)255 : (byte)0;
            }
        }

        return new(across, down, coverage, Dpm);
    }

    [Theory]
    [InlineData(BarcodeFormat.QR_CODE, "https://example.org/r/17", 0.6, 0.0, 4)]
    [InlineData(BarcodeFormat.QR_CODE, "https://example.org/r/17", 0.83, 20.0, 4)]
    [InlineData(BarcodeFormat.DATA_MATRIX, "COLDPEEL-0017", 0.7, 0.0, 1)]
    [InlineData(BarcodeFormat.EAN_13, "4006381333931", 0.5, 0.0, 7)]
    [InlineData(BarcodeFormat.CODE_128, "VOL-0017", 0.5, 0.0, 10)]
    [InlineData(BarcodeFormat.CODE_128, "VOL-0017", 0.5, 90.0, 10)]
    public void A_code_whose_dark_parts_become_white_is_found_swapped_and_measured(
        BarcodeFormat format,
        string text,
        double module,
        double turn,
        double needed
    )
    {
        var bars = format is BarcodeFormat.EAN_13 or BarcodeFormat.CODE_128;
        var plane = Inked(Matrix(format, text), module, 16, turn, bars);
        var code = Assert.Single(CodeReader.Find(plane));
        output.WriteLine($"{code}");
        Assert.Equal((text, true), (code.Text, code.Inverted));
        Assert.Equal(module, code.ModuleMm, 0.03);
        Assert.Equal(needed, code.NeededModules, bars && format == BarcodeFormat.EAN_13 ? 4 : 0.0);
        // The fabric goes on all round: there is room enough.
        Assert.Equal(code.NeededModules, code.QuietModules, 0.3);
    }

    [Fact]
    public void Dots_in_rows_that_happen_to_read_as_bars_are_no_code()
    {
        // What stands along a row is a true EAN-13; below it the field is open, and then it stands there again.
        var code = Matrix(BarcodeFormat.EAN_13, "4006381333931");
        const int Module = 4;
        const int Room = 120;
        const int Height = 240;
        var width = (code.Width * Module) + (2 * Room);
        WhitePlane Drawn(bool dots)
        {
            var coverage = new byte[width * Height];
            for (var y = 0; y < Height; y++)
            {
                for (var x = Room; x < width - Room && (!dots || y % 8 < 3); x++)
                {
                    coverage[(y * width) + x] = code[(x - Room) / Module, 0] ? (byte)255 : (byte)0;
                }
            }

            return new(width, Height, coverage, Dpm);
        }

        Assert.Single(CodeReader.Find(Drawn(dots: false)));
        Assert.Empty(CodeReader.Find(Drawn(dots: true)));
    }

    [Theory]
    [InlineData(5)]
    [InlineData(2)]
    public void A_code_open_in_a_white_field_reads_as_it_appears_and_has_the_room_of_its_field(double field)
    {
        var plane = Inked(Matrix(BarcodeFormat.QR_CODE, "https://example.org/r/17"), 0.7, 12, 0, false, field);
        var code = Assert.Single(CodeReader.Find(plane));
        output.WriteLine($"{code}");
        Assert.Equal(("QR code", false), (code.Kind, code.Inverted));
        Assert.Equal(Math.Min(4, field), code.QuietModules, 0.4);
        Assert.Equal(0.7, code.ModuleMm, 0.02);
        Assert.Equal(12, code.At.Left, 0.7);
    }

    [Fact]
    public void A_drawing_without_a_code_holds_none()
    {
        var artwork = Drawings.Good(Place.Data("artwork", "symbols.svg"));
        var ink = artwork.Ink(Drawings.Darkness, artwork.OwnWidthMm, artwork.OwnHeightMm);
        Assert.Empty(CodeReader.Find(InkRaster(ink.Path!, artwork.OwnWidthMm, artwork.OwnHeightMm)));
    }

    private static WhitePlane InkRaster(InkPath path, double w, double h) =>
        Coldpeel.Files.Artwork.InkRaster.Fill(path, w, h, Dpm);
}
