using CliWrap;
using CliWrap.Buffered;
using Coldpeel.Files.Artwork.Fonts;

namespace Coldpeel.Files.Tests.Artwork;

public sealed class LetteringFontShelfTests
{
    [Theory]
    [InlineData("Inter", "Inter Regular")]
    [InlineData("inter  bold", "Inter Bold")]
    [InlineData("Inter-SemiBold", "Inter SemiBold")]
    public void Inter_is_always_there_by_family_and_weight(string name, string found)
    {
        using var face = FontShelf.OpenOnly([]).Find(name, null, "here").Value!;
        Assert.Equal(found, face.Name);
    }

    [Theory]
    [InlineData("Oswald", "Oswald Regular")]
    [InlineData("Oswald Bold", "Oswald Bold")]
    [InlineData("alfa slab one", "Alfa Slab One Regular")]
    [InlineData("Pacifico", "Pacifico Regular")]
    [InlineData("Saira Stencil One", "Saira Stencil One Regular")]
    [InlineData("Varela Round", "Varela Round Regular")]
    [InlineData("Noto Sans", "Noto Sans Regular")]
    [InlineData("Noto Sans Black", "Noto Sans Black")]
    [InlineData("Noto Sans Hebrew", "Noto Sans Hebrew Regular")]
    [InlineData("Noto Naskh Arabic", "Noto Naskh Arabic Regular")]
    public void The_restored_fonts_are_found_by_family(string name, string found)
    {
        LetteringFonts.PathOf("Oswald"); // skips where the fonts are not restored
        var face = FontShelf.Open([]).Find(name, null, "here");
        Assert.Null(face.Fault);
        Assert.Equal(found, face.Value!.Name);
        face.Value.Dispose();
    }

    [Fact]
    public async Task Every_font_of_this_machine_has_the_family_that_fontconfig_gives_it()
    {
        var run = await Cli.Wrap(Place.Tool("fc-scan"))
            .WithArguments([
                "--format",
                "%{file}|%{index}|%{family[0]}|%{family[1]}|%{fullname[0]}\n",
                "/usr/share/fonts/truetype",
                "/usr/share/fonts/opentype",
            ])
            .ExecuteBufferedAsync(TestContext.Current.CancellationToken);
        var names = new FontFolder("/usr/share/fonts")
            .Fonts.Where(f => f.Names?.Index == 0)
            .ToDictionary(f => f.Path, f => f.Names!);
        var count = 0;
        foreach (
            var line in run
                .StandardOutput.Split('\n')
                .Select(l => l.Split('|'))
                .Where(l => l.Length == 5 && l[1] == "0")
        )
        {
            Assert.True(names.TryGetValue(line[0], out var ours), line[0]);
            Assert.Contains(ours.All, n => n.StartsWith(line[2], StringComparison.Ordinal));
            Assert.Contains(line[4], ours.All);
            count++;
        }

        Assert.True(count > 10, $"Only {count} fonts were compared.");
    }

    [Fact]
    public void A_missing_font_is_a_fault_with_close_names_and_never_another_font()
    {
        var fault = FontShelf.OpenOnly([]).Find("Intre Bold", null, "job.json, design name").Fault!;
        Assert.Equal(
            "job.json, design name: The font \"Intre Bold\" is not there. Close names that are there: Inter Bold; or put the font's file beside the job.",
            fault.ToString()
        );
        Assert.Contains(
            "Inter always is",
            FontShelf.OpenOnly([]).Find("Zapf", null, "here").Fault!.Mend.English,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void A_font_file_beside_the_job_is_taken_and_one_outside_its_folder_is_not()
    {
        var job = Path.Combine(Place.NewFolder(), "job");
        Directory.CreateDirectory(Path.Combine(job, "fonts"));
        File.WriteAllBytes(Path.Combine(job, "fonts", "own.ttf"), InterFonts.Files["Bold"]);
        File.WriteAllBytes(Path.Combine(job, "..", "out.ttf"), InterFonts.Files["Bold"]);
        File.WriteAllText(Path.Combine(job, "bad.otf"), "OTTO is not enough");
        File.CreateSymbolicLink(Path.Combine(job, "link.ttf"), Path.Combine(job, "..", "out.ttf"));
        Directory.CreateSymbolicLink(Path.Combine(job, "up"), Path.Combine(job, ".."));
        var shelf = FontShelf.OpenOnly([]);
        using var own = shelf.Find("fonts/own.ttf", job, "here").Value!;
        Assert.Equal("fonts/own.ttf", own.Name);
        string Said(string name, string? folder) => shelf.Find(name, folder, "here").Fault!.ToString();
        Assert.Contains("outside the job's folder", Said("../out.ttf", job), StringComparison.Ordinal);
        Assert.Contains(
            "outside the job's folder",
            Said(Path.GetFullPath(Path.Combine(job, "..", "out.ttf")), job),
            StringComparison.Ordinal
        );
        Assert.Contains("is a link", Said("link.ttf", job), StringComparison.Ordinal);
        Assert.Contains("is a link", Said("up/out.ttf", job), StringComparison.Ordinal);
        Assert.Contains("not beside the job", Said("none.ttf", job), StringComparison.Ordinal);
        Assert.Contains("broken", Said("bad.otf", job), StringComparison.Ordinal);
        Assert.Contains("no job", Said("own.ttf", null), StringComparison.Ordinal);
    }

    [Fact]
    public void Broken_fonts_in_a_folder_are_passed_over_and_reported()
    {
        var folder = Place.NewFolder();
        File.WriteAllBytes(Path.Combine(folder, "cut.ttf"), InterFonts.Files["Thin"][..5000]);
        File.WriteAllBytes(Path.Combine(folder, "empty.otf"), []);
        File.WriteAllBytes(
            Path.Combine(folder, "noise.ttc"),
            [.. Enumerable.Range(0, 4000).Select(i => (byte)(i * 37))]
        );
        File.WriteAllText(Path.Combine(folder, "notes.txt"), "no font");
        var shelf = FontShelf.OpenOnly([folder]);
        Assert.Equal(
            ["Inter Bold", "Inter Light", "Inter Medium", "Inter Regular", "Inter SemiBold", "Inter Thin"],
            shelf.Names()
        );
        Assert.Equal(["cut.ttf", "empty.otf", "noise.ttc"], shelf.Broken().Select(Path.GetFileName));
    }

    [Fact]
    public void Fonts_of_a_collection_are_found_each_by_its_name()
    {
        // A collection of two of Inter's files, laid out as the OpenType specification says: header, then the files with their table offsets moved.
        var folder = Place.NewFolder();
        File.WriteAllBytes(
            Path.Combine(folder, "two.ttc"),
            Collection(InterFonts.Files["Regular"], InterFonts.Files["Bold"])
        );
        var names = new FontFolder(folder).Fonts.Select(f => f.Names!).ToList();
        Assert.Equal([0, 1], names.Select(n => n.Index));
        Assert.Contains("Inter Bold", names[1].All);
    }

    private static byte[] Collection(params byte[][] fonts)
    {
        var head = new byte[12 + (4 * fonts.Length)];
        "ttcf"u8.CopyTo(head);
        Put(head, 4, 0x00010000);
        Put(head, 8, fonts.Length);
        var all = head.ToList();
        for (var i = 0; i < fonts.Length; i++)
        {
            var (font, start) = (fonts[i].ToArray(), all.Count);
            for (var t = 0; t < (font[4] << 8) + font[5]; t++)
            {
                var at = 12 + (16 * t) + 8;
                Put(font, at, start + ((font[at] << 24) | (font[at + 1] << 16) | (font[at + 2] << 8) | font[at + 3]));
            }

            all.AddRange(font);
            var bytes = new byte[4];
            Put(bytes, 0, start);
            for (var b = 0; b < 4; b++)
            {
                all[12 + (4 * i) + b] = bytes[b];
            }
        }

        return [.. all];
    }

    private static void Put(byte[] bytes, int at, int value) =>
        System.Buffers.Binary.BinaryPrimitives.WriteInt32BigEndian(bytes.AsSpan(at), value);
}
