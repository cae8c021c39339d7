using System.Globalization;

namespace Coldpeel.Desk.Tests.Orders;

/// <summary>The proof, looked at by programs from outside: poppler draws it and reads its words.</summary>
public sealed class ProofTests : IDisposable
{
    private readonly SmallWorkshop _small = new();
    private readonly string _folder = Place.NewFolder();

    public void Dispose()
    {
        _small.Dispose();
        Directory.Delete(_folder, recursive: true);
    }

    [Fact]
    public async Task A_design_stands_on_the_proof_at_true_size_on_the_colour_of_its_fabric()
    {
        _small.Bring(("job.json", SmallWorkshop.Job("AR-1", 60)), ("mark.svg", SmallWorkshop.Bold));
        var pdf = Put("proof.pdf", _small.File("AR-1", "proof.pdf"));
        // 254 dots an inch are 10 a millimetre.
        var root = Path.Combine(_folder, "page");
        await Outside.Says("pdftoppm", "-r", "254", "-singlefile", pdf, root);
        var (width, height, pixels) = Pixels(root + ".ppm");
        // Below the head, where the item's swatch has the same colour.
        var cloth = Find(
            pixels,
            width,
            height,
            (r, g, b) => Near(r, 0x2b) && Near(g, 0x2d) && Near(b, 0x31),
            (0, 1500, width, height)
        );
        var print = Find(pixels, width, height, (r, g, b) => Near(r, 0xFA) && Near(g, 0xFA) && Near(b, 0xF7), cloth);
        // The bold mark is 40 × 20 mm in a frame of 60 × 40; a pixel of poppler more or less at each edge.
        Assert.InRange(print.Right - print.Left, 398, 402);
        Assert.InRange(print.Bottom - print.Top, 198, 202);
        // The cloth reaches 6 mm round the frame: 72 × 52 mm.
        Assert.InRange(cloth.Right - cloth.Left, 717, 723);
    }

    [Fact]
    public async Task The_proof_names_places_distances_and_every_name_and_has_the_price_only_where_it_is_asked_for()
    {
        var job = """
            {
              "job": "AR-2", "customer": "Alder Reach Tea Tent", "due": "2027-05-21", "currency": "EUR",
              "designs": [{ "id": "name", "lettering": { "text": "{name}", "font": "Inter SemiBold", "heightMm": 20 } }],
              "items": [{ "id": "shirt", "what": "T-shirt", "material": "cotton-jersey", "colour": "navy", "quantity": 3, "roster": "names.csv",
                "suppliedBy": "workshop", "use": "everyday", "placements": [{ "design": "name", "at": "upper back" }] }]
            }
            """;
        _small.Bring(("job.json", job), ("names.csv", "name\nÅsa\nNía\nMei\n"));
        var words = await Outside.Says("pdftotext", "-layout", Put("proof.pdf", _small.File("AR-2", "proof.pdf")), "-");
        foreach (
            var word in new[] { "1, Åsa", "2, Nía", "3, Mei", "upper back", "mm down from", "signature", "version" }
        )
        {
            Assert.Contains(word, words, StringComparison.Ordinal);
        }

        Assert.DoesNotContain("EUR", words, StringComparison.Ordinal);
        var priced = await Outside.Says(
            "pdftotext",
            "-layout",
            Put("priced.pdf", _small.File("AR-2", "proof-with-price.pdf")),
            "-"
        );
        Assert.Matches(@"Price: \d+\.\d\d EUR", priced);
        // Another name, another version.
        var version = Version(words);
        _small.Bring(("job.json", job), ("names.csv", "name\nÅsa\nNia\nMei\n"));
        var after = await Outside.Says("pdftotext", "-layout", Put("proof.pdf", _small.File("AR-2", "proof.pdf")), "-");
        Assert.NotEqual(version, Version(after));
    }

    private static string Version(string words) =>
        System.Text.RegularExpressions.Regex.Match(words, "version ([0-9A-F]{8})").Groups[1].Value;

    private string Put(string name, byte[] content)
    {
        var path = Path.Combine(_folder, name);
        File.WriteAllBytes(path, content);
        return path;
    }

    private static bool Near(byte a, int b) => Math.Abs(a - b) <= 2;

    // Netpbm, "PPM Format Specification": P6, width, height, 255, then red, green, blue a pixel.
    private static (int Width, int Height, byte[] Pixels) Pixels(string ppm)
    {
        var bytes = File.ReadAllBytes(ppm);
        var head = System.Text.Encoding.ASCII.GetString(bytes, 0, 40).Split('\n', ' ');
        Assert.Equal("P6", head[0]);
        var (width, height) = (
            int.Parse(head[1], CultureInfo.InvariantCulture),
            int.Parse(head[2], CultureInfo.InvariantCulture)
        );
        return (width, height, bytes[^(width * height * 3)..]);
    }

    private static (int Left, int Top, int Right, int Bottom) Find(
        byte[] pixels,
        int width,
        int height,
        Func<byte, byte, byte, bool> wanted,
        (int Left, int Top, int Right, int Bottom)? within = null
    )
    {
        var (left, top, right, bottom) = (width, height, 0, 0);
        for (var y = within?.Top ?? 0; y < (within?.Bottom ?? height); y++)
        {
            for (var x = within?.Left ?? 0; x < (within?.Right ?? width); x++)
            {
                var at = ((y * width) + x) * 3;
                if (wanted(pixels[at], pixels[at + 1], pixels[at + 2]))
                {
                    (left, top) = (Math.Min(left, x), Math.Min(top, y));
                    (right, bottom) = (Math.Max(right, x + 1), Math.Max(bottom, y + 1));
                }
            }
        }

        return (left, top, right, bottom);
    }
}
